package layupmold.geometry.simplify;

import com.carrotsearch.hppc.IntArrayList;
import java.util.function.Supplier;
import layupmold.geometry.mesh.Planes;
import layupmold.geometry.parallel.Parallel;

/**
 * Takes out thin triangles that do not face as the surface should: a surface that is near its target everywhere may
 * still have pleats as high as it may miss, which an offset makes larger. Edges beside them are collapsed or flipped
 * where all that changes then faces better and stays near. O(n), and the measures around the pleats.
 */
public final class PleatRepair {

    private static final int PASSES = 6;
    private static final int GRAIN = 256;
    /** Triangles whose normal is within 32° of the target's front are none. */
    private static final double LEAST_COSINE = 0.85;
    private static final double LEAST_GAIN = 0.02;
    /** Triangles flatter than this have no direction to speak of. */
    private static final double FLAT_MM = 5e-4;

    private final HalfEdgeMesh mesh;
    private final boolean[] fixed;
    private final Target target;
    private final double toleranceMm;
    private final CollapseGuard guard;
    private final HalfEdgeMesh.Fan fan = new HalfEdgeMesh.Fan();

    private PleatRepair(Simplifier.Result surface, Target target, double toleranceMm) {
        this.mesh = new HalfEdgeMesh(surface.mesh());
        this.fixed = surface.fixed();
        this.target = target;
        this.toleranceMm = toleranceMm;
        this.guard = new CollapseGuard(mesh, 0);
    }

    /**
     * @param surface its fixed vertices stay
     * @param targets gives each thread what it stands for
     * @param toleranceMm what changes may miss by no more
     */
    public static Simplifier.Result repair(
            Simplifier.Result surface, Supplier<Target> targets, double toleranceMm) {
        PleatRepair repair = new PleatRepair(surface, targets.get(), toleranceMm);
        IntArrayList pleats = repair.pleats(targets);
        for (int pass = 0; pass < PASSES && !pleats.isEmpty(); pass++) {
            IntArrayList changed = new IntArrayList();
            for (int i = 0; i < pleats.size(); i++) {
                if (!repair.mesh.isRemoved(pleats.get(i))) {
                    repair.smooth(pleats.get(i), changed);
                }
            }
            pleats = changed;
        }
        return Simplifier.Result.of(repair.mesh, surface.labels(), surface.fixed());
    }

    private IntArrayList pleats(Supplier<Target> targets) {
        int n = mesh.triangleCount();
        boolean[] is = new boolean[n];
        Parallel.forRanges(n, GRAIN, (chunk, from, to) -> {
            Target own = targets.get();
            for (int t = from; t < to; t++) {
                is[t] = facing(mesh.from(3 * t), mesh.from(3 * t + 1), mesh.from(3 * t + 2), own) < LEAST_COSINE;
            }
        });
        IntArrayList found = new IntArrayList();
        for (int t = 0; t < n; t++) {
            if (is[t]) {
                found.add(t);
            }
        }
        return found;
    }

    /** @param changed receives the triangles that are not what they were */
    private void smooth(int t, IntArrayList changed) {
        double now = facing(mesh.from(3 * t), mesh.from(3 * t + 1), mesh.from(3 * t + 2), target);
        if (now >= LEAST_COSINE) {
            return;
        }
        int best = -1;
        boolean flips = false;
        double most = now + LEAST_GAIN;
        for (int side = 3 * t; side < 3 * t + 3; side++) {
            if (mesh.twin(side) < 0) {
                continue;
            }
            for (int h : new int[] {side, mesh.twin(side)}) {
                double cosine = afterCollapse(h, most);
                if (cosine > most) {
                    most = cosine;
                    best = h;
                    flips = false;
                }
            }
            double cosine = afterFlip(side, most);
            if (cosine > most) {
                most = cosine;
                best = side;
                flips = true;
            }
        }
        if (flips) {
            changed.add(best / 3, mesh.twin(best) / 3);
            mesh.flip(best);
        } else if (best >= 0) {
            mesh.fan(mesh.from(best), fan);
            for (int i = 0; i < fan.size; i++) {
                changed.add(fan.halfEdges[i] / 3);
            }
            mesh.collapse(best, fan);
        }
    }

    /** Least cosine among the triangles that are left at the start of {@code h}; -1 if it may not be collapsed. */
    private double afterCollapse(int h, double most) {
        int u = mesh.from(h);
        int v = mesh.to(h);
        mesh.fan(u, fan);
        if (fixed[u] || fan.onBoundary || !guard.keepsTopology(h, fan)) {
            return -1;
        }
        double least = 1;
        for (int i = 0; i < fan.size && least > most; i++) {
            int b = mesh.to(fan.halfEdges[i]);
            int c = mesh.apex(fan.halfEdges[i]);
            if (b != v && c != v) {
                least = Math.min(least, facingNear(v, b, c, most));
            }
        }
        return least;
    }

    private double afterFlip(int h, double most) {
        int a = mesh.apex(h);
        int b = mesh.apex(mesh.twin(h));
        if (!guard.mayBeJoined(a, b)) {
            return -1;
        }
        double first = facingNear(mesh.from(h), b, a, most);
        return first <= most ? -1 : Math.min(first, facingNear(mesh.to(h), a, b, most));
    }

    /** As {@link #facing}; -1 if the triangle's sides miss, or it does not face better than asked. */
    private double facingNear(int a, int b, int c, double most) {
        double cosine = facing(a, b, c, target);
        return cosine > most && between(a, b) <= toleranceMm && between(b, c) <= toleranceMm
                && between(c, a) <= toleranceMm ? cosine : -1;
    }

    /** Cosine between a triangle's normal and the target's front at its middle. */
    private double facing(int a, int b, int c, Target measure) {
        double[] xyz = mesh.xyz;
        double[] n = Planes.normal(xyz, a, b, c);
        double length = Math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]);
        double longest = Math.sqrt(Math.max(mesh.squaredLength(a, b),
                Math.max(mesh.squaredLength(b, c), mesh.squaredLength(c, a))));
        if (length < FLAT_MM * longest) {
            return -1;
        }
        measure.miss((xyz[3 * a] + xyz[3 * b] + xyz[3 * c]) / 3,
                (xyz[3 * a + 1] + xyz[3 * b + 1] + xyz[3 * c + 1]) / 3,
                (xyz[3 * a + 2] + xyz[3 * b + 2] + xyz[3 * c + 2]) / 3);
        return measure.along(n[0], n[1], n[2]) / length;
    }

    private double between(int u, int v) {
        double[] xyz = mesh.xyz;
        return Math.abs(target.miss((xyz[3 * u] + xyz[3 * v]) / 2, (xyz[3 * u + 1] + xyz[3 * v + 1]) / 2,
                (xyz[3 * u + 2] + xyz[3 * v + 2]) / 2));
    }
}
