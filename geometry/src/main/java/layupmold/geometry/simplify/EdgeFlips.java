package layupmold.geometry.simplify;

import java.util.function.IntPredicate;
import java.util.function.Supplier;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/**
 * Flips edges that cut a corner of the surface they stand for: of the two ways to halve the quadrilateral of two
 * triangles, the one whose middle lies nearer to that surface follows its creases (the last step of Kobbelt, Botsch,
 * Schwanecke and Seidel, "Feature sensitive surface extraction from volume data", 2001).
 */
public final class EdgeFlips {

    private static final int GRAIN = 1 << 9;
    private static final int PASSES = 2;
    /** A flip must leave this share of the miss at the most. */
    private static final double GAIN = 0.6;

    /** Distance of a point from the surface stood for, mm; used by one thread. */
    @FunctionalInterface
    public interface Miss {
        double at(double x, double y, double z);
    }

    private final HalfEdgeMesh mesh;
    private final int[] labels;
    private final CollapseGuard guard;

    private EdgeFlips(TriangleMesh surface, int[] labels) {
        this.mesh = new HalfEdgeMesh(surface);
        this.labels = labels;
        this.guard = new CollapseGuard(mesh, 0);
    }

    /**
     * @param labels one for each triangle; edges between different ones stay
     * @param looked triangles whose edges are looked at
     * @param mayChange whether edges at a vertex may be flipped
     * @param miss gives each thread its measure
     * @param toleranceMm edges that miss by less stay
     * @return the mesh with the same vertices and triangles but for those flipped; O(n) measures
     */
    public static TriangleMesh flip(TriangleMesh surface, int[] labels, IntPredicate looked, IntPredicate mayChange,
            Supplier<Miss> miss, double toleranceMm) {
        EdgeFlips flips = new EdgeFlips(surface, labels);
        for (int pass = 0; pass < PASSES; pass++) {
            boolean[] better = flips.findBetter(looked, mayChange, miss, toleranceMm);
            if (!flips.flipAll(better)) {
                break;
            }
        }
        return new TriangleMesh(surface.xyz(), flips.mesh.corners());
    }

    private boolean[] findBetter(
            IntPredicate looked, IntPredicate mayChange, Supplier<Miss> miss, double toleranceMm) {
        boolean[] better = new boolean[3 * mesh.triangleCount()];
        Parallel.forRanges(mesh.triangleCount(), GRAIN, (chunk, from, to) -> {
            Miss measure = miss.get();
            for (int h = 3 * from; h < 3 * to; h++) {
                int g = mesh.twin(h);
                if (g > h && (looked.test(h / 3) || looked.test(g / 3)) && labels[g / 3] == labels[h / 3]
                        && mayChange.test(mesh.from(h)) && mayChange.test(mesh.to(h))
                        && mayChange.test(mesh.apex(h)) && mayChange.test(mesh.apex(g))
                        && guard.bend(h) > toleranceMm) {
                    double now = atMiddle(mesh.from(h), mesh.to(h), measure);
                    better[h] = now > toleranceMm && atMiddle(mesh.apex(h), mesh.apex(g), measure) < GAIN * now;
                }
            }
        });
        return better;
    }

    private double atMiddle(int u, int v, Miss measure) {
        double[] xyz = mesh.xyz;
        return Math.abs(measure.at((xyz[3 * u] + xyz[3 * v]) / 2, (xyz[3 * u + 1] + xyz[3 * v + 1]) / 2,
                (xyz[3 * u + 2] + xyz[3 * v + 2]) / 2));
    }

    /** Flips what was found, leaving triangles alone that another flip has changed; false if there was nothing. */
    private boolean flipAll(boolean[] better) {
        boolean[] changed = new boolean[mesh.triangleCount()];
        boolean any = false;
        for (int h = 0; h < better.length; h++) {
            int g = better[h] ? mesh.twin(h) : -1;
            if (g >= 0 && !changed[h / 3] && !changed[g / 3] && guard.allowsCreaseFlip(h)) {
                mesh.flip(h);
                changed[h / 3] = true;
                changed[g / 3] = true;
                any = true;
            }
        }
        return any;
    }
}
