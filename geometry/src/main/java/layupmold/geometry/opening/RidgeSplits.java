package layupmold.geometry.opening;

import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Sets vertices where a patch is farthest from its loop. Patches over small or narrow openings have sides right across,
 * both ends nearer the loop than a line that the side's middle lies beyond; lines are found from vertices alone.
 */
final class RidgeSplits {

    /** Places looked at along a side, at most so far apart as a share of the distance of the farthest line. */
    private static final double STEP = 0.125;
    private static final int LEAST_STEPS = 4;
    private static final int MOST_STEPS = 64;
    /** By how much of {@code beyondMm} a new vertex is farther from the loop than its side's ends. */
    private static final double LEAST_GAIN = 0.5;

    /**
     * @param mesh the patch in its own surface, with more vertices after its own
     * @param distance of each vertex from the loop, mm
     */
    record Result(TriangleMesh mesh, double[] distance) {
    }

    private final PatchMesh patch;
    private final LoopDistance fromLoop;
    private final double[] lines;
    private final double beyondMm;
    /** The loop's corners, then the place looked at. */
    private final double[] probe;
    private double[] distance;

    private RidgeSplits(PatchMesh patch, LoopDistance fromLoop, double[] lines, double beyondMm) {
        this.patch = patch.copy();
        this.fromLoop = fromLoop;
        this.lines = lines;
        this.beyondMm = beyondMm;
        this.probe = Arrays.copyOf(patch.xyz, 3 * patch.loopCount + 3);
        this.distance = new double[patch.vertexCount];
        for (int v = patch.loopCount; v < distance.length; v++) {
            distance[v] = fromLoop.at(patch.xyz, v);
        }
    }

    /**
     * O(n log n).
     *
     * @param lines distances from the loop, ascending, mm
     * @param beyondMm vertices nearer to a line will be moved onto it, and show nothing beyond
     */
    static Result split(PatchMesh patch, LoopDistance fromLoop, double[] lines, double beyondMm) {
        RidgeSplits splits = new RidgeSplits(patch, fromLoop, lines, beyondMm);
        // New sides come last and are looked at in turn, each a little farther from the loop.
        for (int h = 0; h < 3 * splits.patch.triangleCount; h++) {
            splits.splitAtRidge(h);
        }
        return new Result(splits.patch.toMesh(), Arrays.copyOf(splits.distance, splits.patch.vertexCount));
    }

    private void splitAtRidge(int h) {
        int a = patch.origin[h];
        int b = patch.destination(h);
        double farther = Math.max(distance[a], distance[b]);
        double length = Triangles.distance(patch.xyz, a, b);
        if (patch.twin[h] < 0 || farther + length < beyondNextLine(farther)) {
            return;
        }
        int steps = (int) Math.ceil(length / (STEP * lines[lines.length - 1]));
        steps = Math.max(LEAST_STEPS, Math.min(MOST_STEPS, steps));
        double most = 0;
        double at = 0;
        for (int i = 1; i < steps; i++) {
            double d = distanceAt(a, b, (double) i / steps);
            if (d > most) {
                most = d;
                at = (double) i / steps;
            }
        }
        if (most >= farther + LEAST_GAIN * beyondMm) {
            distanceAt(a, b, at);
            int p = probe.length - 3;
            int v = patch.split(h, probe[p], probe[p + 1], probe[p + 2]);
            if (v == distance.length) {
                distance = Arrays.copyOf(distance, 2 * v);
            }
            distance[v] = most;
        }
    }

    /** Infinite beyond the last line. */
    private double beyondNextLine(double mm) {
        for (double line : lines) {
            if (line + beyondMm > mm) {
                return line + beyondMm;
            }
        }
        return Double.POSITIVE_INFINITY;
    }

    private double distanceAt(int a, int b, double share) {
        int p = probe.length - 3;
        for (int k = 0; k < 3; k++) {
            probe[p + k] = patch.xyz[3 * a + k] + share * (patch.xyz[3 * b + k] - patch.xyz[3 * a + k]);
        }
        return fromLoop.at(probe, p / 3);
    }
}
