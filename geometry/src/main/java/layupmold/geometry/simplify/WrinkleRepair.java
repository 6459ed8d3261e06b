package layupmold.geometry.simplify;

import com.carrotsearch.hppc.IntArrayList;
import layupmold.geometry.mesh.Planes;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Rights triangles that turned over when a mesh's vertices moved, where that takes but a flipped or collapsed edge that
 * stays within a tolerance of where the surface should be: thin triangles turn over by a slight shift of one corner,
 * without the surface having folded. Real folds stay. O(n), and the measures around the turned triangles.
 */
public final class WrinkleRepair {

    private static final int PASSES = 6;
    /** New triangles face along the old ones by this much at the least. */
    private static final double LEAST_COSINE = 0.5;
    /** Triangles flatter than this have no direction to speak of. */
    private static final double FLAT_MM = 5e-4;

    /**
     * @param mesh with the vertices as given, some of them perhaps unused
     * @param source for each triangle the given one
     */
    public record Result(TriangleMesh mesh, int[] source) {
    }

    private final HalfEdgeMesh mesh;
    private final double[] before;
    private final byte[] labels;
    private final Target target;
    private final double toleranceMm;
    private final CollapseGuard guard;
    private final HalfEdgeMesh.Fan fan = new HalfEdgeMesh.Fan();

    private WrinkleRepair(double[] before, TriangleMesh moved, byte[] labels, Target target, double toleranceMm) {
        this.mesh = new HalfEdgeMesh(moved);
        this.before = before;
        this.labels = labels;
        this.target = target;
        this.toleranceMm = toleranceMm;
        this.guard = new CollapseGuard(mesh, 0);
    }

    /**
     * @param before x, y, z of the vertices before they moved
     * @param moved the mesh after
     * @param labels of its triangles; edges between different ones stay
     * @param toleranceMm what changes may miss by no more
     */
    public static Result repair(
            double[] before, TriangleMesh moved, byte[] labels, Target target, double toleranceMm) {
        WrinkleRepair repair = new WrinkleRepair(before, moved, labels, target, toleranceMm);
        boolean changed = true;
        for (int pass = 0; pass < PASSES && changed; pass++) {
            changed = false;
            IntArrayList turned = repair.turned();
            for (int i = 0; i < turned.size(); i++) {
                int t = turned.get(i);
                changed |= repair.isTurned(t) && (repair.flip(t) || repair.collapse(t));
            }
        }
        int[] left = repair.mesh.remainingTriangles();
        int[] corners = new int[3 * left.length];
        for (int i = 0; i < corners.length; i++) {
            corners[i] = repair.mesh.from(3 * left[i / 3] + i % 3);
        }
        return new Result(new TriangleMesh(moved.xyz(), corners), left);
    }

    private IntArrayList turned() {
        IntArrayList turned = new IntArrayList();
        for (int t = 0; t < mesh.triangleCount(); t++) {
            if (isTurned(t)) {
                turned.add(t);
            }
        }
        return turned;
    }

    private boolean isTurned(int t) {
        if (mesh.isRemoved(t)) {
            return false;
        }
        int a = mesh.from(3 * t);
        int b = mesh.from(3 * t + 1);
        int c = mesh.from(3 * t + 2);
        return dot(Planes.normal(before, a, b, c), Planes.normal(mesh.xyz, a, b, c)) <= 0;
    }

    private boolean flip(int t) {
        int best = -1;
        double bestLength = 0;
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            int g = mesh.twin(h);
            if (g < 0 || labels[g / 3] != labels[t]) {
                continue;
            }
            double length = mesh.squaredLength(mesh.from(h), mesh.to(h));
            if (length > bestLength && facesAfterFlip(h) && guard.mayBeJoined(mesh.apex(h), mesh.apex(g))
                    && Math.abs(missBetween(mesh.apex(h), mesh.apex(g))) <= toleranceMm) {
                best = h;
                bestLength = length;
            }
        }
        if (best >= 0) {
            mesh.flip(best);
        }
        return best >= 0;
    }

    /** Whether both triangles that flipping {@code h} makes face as the old pair did, before and after the move. */
    private boolean facesAfterFlip(int h) {
        int u = mesh.from(h);
        int v = mesh.to(h);
        int a = mesh.apex(h);
        int b = mesh.apex(mesh.twin(h));
        double[] front = Planes.normal(before, u, v, a);
        double[] other = Planes.normal(before, v, u, b);
        for (int k = 0; k < 3; k++) {
            front[k] += other[k];
        }
        return faces(Planes.normal(mesh.xyz, u, b, a), front) && faces(Planes.normal(mesh.xyz, v, a, b), front)
                && faces(Planes.normal(before, u, b, a), front) && faces(Planes.normal(before, v, a, b), front);
    }

    /** Collapses the edge of {@code t} that brings the surface nearest to where it should be, if near enough. */
    private boolean collapse(int t) {
        int best = -1;
        double least = toleranceMm;
        for (int side = 3 * t; side < 3 * t + 3; side++) {
            for (int h : new int[] {side, mesh.twin(side)}) {
                if (h < 0) {
                    continue;
                }
                double miss = missAfterCollapse(h, least);
                if (miss < least) {
                    least = miss;
                    best = h;
                }
            }
        }
        if (best >= 0) {
            mesh.fan(mesh.from(best), fan);
            mesh.collapse(best, fan);
        }
        return best >= 0;
    }

    /** Greatest miss of the triangles that are left at the start of {@code h}; infinite if it may not be collapsed. */
    private double missAfterCollapse(int h, double least) {
        int u = mesh.from(h);
        int v = mesh.to(h);
        mesh.fan(u, fan);
        if (fan.onBoundary || !guard.keepsTopology(h, fan)) {
            return Double.POSITIVE_INFINITY;
        }
        double worst = 0;
        for (int i = 0; i < fan.size && worst < least; i++) {
            int g = fan.halfEdges[i];
            int b = mesh.to(g);
            int c = mesh.apex(g);
            if (labels[g / 3] != labels[h / 3]) {
                return Double.POSITIVE_INFINITY;
            }
            if (b != v && c != v) {
                worst = Math.max(worst, missOf(v, b, c));
            }
        }
        return worst;
    }

    private double missOf(int a, int b, int c) {
        double[] xyz = mesh.xyz;
        double[] n = Planes.normal(xyz, a, b, c);
        double length = Math.sqrt(dot(n, n));
        double longest = Math.sqrt(Math.max(mesh.squaredLength(a, b),
                Math.max(mesh.squaredLength(b, c), mesh.squaredLength(c, a))));
        double middle = Math.abs(target.miss((xyz[3 * a] + xyz[3 * b] + xyz[3 * c]) / 3,
                (xyz[3 * a + 1] + xyz[3 * b + 1] + xyz[3 * c + 1]) / 3,
                (xyz[3 * a + 2] + xyz[3 * b + 2] + xyz[3 * c + 2]) / 3));
        if (length < FLAT_MM * longest || target.along(n[0], n[1], n[2]) < LEAST_COSINE * length) {
            return Double.POSITIVE_INFINITY;
        }
        return Math.max(middle, Math.max(Math.abs(missBetween(a, b)), Math.abs(missBetween(a, c))));
    }

    private double missBetween(int u, int v) {
        double[] xyz = mesh.xyz;
        return target.miss((xyz[3 * u] + xyz[3 * v]) / 2, (xyz[3 * u + 1] + xyz[3 * v + 1]) / 2,
                (xyz[3 * u + 2] + xyz[3 * v + 2]) / 2);
    }

    private static boolean faces(double[] n, double[] front) {
        return dot(n, front) > LEAST_COSINE * Math.sqrt(dot(n, n) * dot(front, front));
    }

    private static double dot(double[] a, double[] b) {
        return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
    }
}
