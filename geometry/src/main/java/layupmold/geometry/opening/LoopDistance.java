package layupmold.geometry.opening;

import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Straight-line distances of a patch's vertices from its loop. A hierarchy tells which sides may be the nearest, so that
 * each is found in O(log n), and as a search through all of them would. For one thread.
 */
final class LoopDistance {

    /** More than distances are rounded by. */
    private static final double SLACK_MM = 1e-6;

    private final int sideCount;
    private final TriangleBvh sides;
    private final NearestPoint answer = new NearestPoint();
    private int nearest;
    private double leastMm;

    /**
     * O(n log n).
     *
     * @param xyz whose first {@code loopCount} vertices are the loop's corners and stay where they are
     */
    LoopDistance(double[] xyz, int loopCount) {
        this.sideCount = loopCount;
        int[] ends = new int[2 * loopCount];
        for (int a = 0; a < loopCount; a++) {
            ends[2 * a] = a;
            ends[2 * a + 1] = end(a);
        }
        this.sides = TriangleBvh.of(TriangleMesh.ofSegments(xyz, ends));
    }

    /** Distance of vertex {@code v} from the loop. */
    double at(double[] xyz, int v) {
        findNearest(xyz, v);
        return leastMm;
    }

    /** Moves vertex {@code v} away from the nearest point of the loop, or towards it, to the given distance. */
    void moveTo(double[] xyz, int v, double distanceMm) {
        findNearest(xyz, v);
        int end = end(nearest);
        double share = shareAlong(xyz, v, nearest, end);
        for (int k = 0; k < 3 && leastMm > 0; k++) {
            double foot = xyz[3 * nearest + k] + share * (xyz[3 * end + k] - xyz[3 * nearest + k]);
            xyz[3 * v + k] = foot + distanceMm / leastMm * (xyz[3 * v + k] - foot);
        }
    }

    private int end(int side) {
        return (side + 1) % sideCount;
    }

    /** The lowest of the nearest sides. */
    private void findNearest(double[] xyz, int v) {
        double x = xyz[3 * v];
        double y = xyz[3 * v + 1];
        double z = xyz[3 * v + 2];
        sides.nearest(x, y, z, Double.POSITIVE_INFINITY, answer);
        nearest = answer.triangle;
        leastMm = toSide(xyz, v, nearest);
        // Sides about as near: none is taken, so that all are asked.
        sides.nearest(x, y, z, leastMm + SLACK_MM, side -> {
            double distanceMm = toSide(xyz, v, side);
            if (distanceMm < leastMm || distanceMm == leastMm && side < nearest) {
                leastMm = distanceMm;
                nearest = side;
            }
            return false;
        }, answer);
    }

    private double toSide(double[] xyz, int p, int a) {
        int b = end(a);
        double share = shareAlong(xyz, p, a, b);
        double sum = 0;
        for (int k = 0; k < 3; k++) {
            double d = xyz[3 * p + k] - xyz[3 * a + k] - share * (xyz[3 * b + k] - xyz[3 * a + k]);
            sum += d * d;
        }
        return Math.sqrt(sum);
    }

    /** Where on the segment, from 0 at {@code a} to 1 at {@code b}, {@code p} is nearest to. */
    private static double shareAlong(double[] xyz, int p, int a, int b) {
        double dot = 0;
        double square = 0;
        for (int k = 0; k < 3; k++) {
            double along = xyz[3 * b + k] - xyz[3 * a + k];
            dot += along * (xyz[3 * p + k] - xyz[3 * a + k]);
            square += along * along;
        }
        return square > 0 ? Math.max(0, Math.min(1, dot / square)) : 0;
    }
}
