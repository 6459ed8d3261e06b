package layupmold.geometry.simplify;

import com.carrotsearch.hppc.IntArrayList;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Takes out the last crossings of a surface that is sound but for places narrower than its coordinates' spacing:
 * collapses edges beside each crossing pair if the triangles that change then meet nothing. Exact in what it accepts;
 * what it cannot free stays as it is, for the caller's check to find.
 */
public final class CrossingRepair {

    private static final int ROUNDS = 6;
    private static final int PAIR_LIMIT = 2_000;
    /** No vertex moves farther than this. */
    private static final double REACH_MM = 0.3;
    /** How far the surface may move, an edge being the last resort. */
    private static final double DEVIATION_MM = 0.012;

    private final HalfEdgeMesh mesh;
    private final TriangleBvh bvh;
    private final CollapseGuard guard;
    private final Quadrics quadrics;
    private final HalfEdgeMesh.Fan fan = new HalfEdgeMesh.Fan();
    private final IntArrayList nearby = new IntArrayList();

    private CrossingRepair(TriangleMesh surface, TriangleBvh bvh) {
        this.mesh = new HalfEdgeMesh(surface);
        this.bvh = bvh;
        this.guard = new CollapseGuard(mesh, 0);
        this.quadrics = new Quadrics(surface);
    }

    /** O(n log n) a round; most surfaces need none. */
    public static Simplifier.Result repair(Simplifier.Result surface) {
        Simplifier.Result current = surface;
        for (int round = 0; round < ROUNDS; round++) {
            TriangleBvh bvh = TriangleBvh.of(current.mesh());
            int[] pairs = SelfIntersections.find(current.mesh(), bvh, PAIR_LIMIT);
            if (pairs.length == 0) {
                return current;
            }
            CrossingRepair repair = new CrossingRepair(current.mesh(), bvh);
            boolean changed = false;
            for (int triangle : pairs) {
                changed |= repair.free(triangle);
            }
            if (!changed) {
                return current;
            }
            current = Simplifier.Result.of(repair.mesh, current.labels(), current.fixed());
        }
        return current;
    }

    /** Collapses the cheapest edge at the triangle's corners that frees what changes; false if there is none. */
    private boolean free(int triangle) {
        if (mesh.isRemoved(triangle) || !isCrossed(triangle)) {
            return false;
        }
        int best = -1;
        double least = DEVIATION_MM * DEVIATION_MM;
        for (int corner = 0; corner < 3; corner++) {
            int u = mesh.from(3 * triangle + corner);
            mesh.fan(u, fan);
            for (int i = 0; i < fan.size; i++) {
                int h = fan.halfEdges[i];
                int v = mesh.to(h);
                double cost = quadrics.at(u, mesh.xyz[3 * v], mesh.xyz[3 * v + 1], mesh.xyz[3 * v + 2]);
                if (cost < least && Math.sqrt(mesh.squaredLength(u, v)) < REACH_MM
                        && guard.keepsTopology(h, fan) && isFreeAfter(h)) {
                    least = cost;
                    best = h;
                }
            }
        }
        if (best < 0) {
            return false;
        }
        mesh.fan(mesh.from(best), fan);
        quadrics.merge(mesh.from(best), mesh.to(best));
        mesh.collapse(best, fan);
        return true;
    }

    private boolean isCrossed(int triangle) {
        int[] corners = {mesh.from(3 * triangle), mesh.from(3 * triangle + 1), mesh.from(3 * triangle + 2)};
        gather(corners);
        return meetsNearby(corners[0], corners[1], corners[2], -1, -1, triangle);
    }

    /** Whether, with the start of {@code h} at its end, the triangles of {@link #fan} meet nothing. */
    private boolean isFreeAfter(int h) {
        int u = mesh.from(h);
        int v = mesh.to(h);
        for (int i = 0; i < fan.size; i++) {
            int g = fan.halfEdges[i];
            int p = mesh.to(g);
            int q = mesh.apex(g);
            if (p == v || q == v) {
                continue;
            }
            gather(new int[] {v, p, q});
            if (meetsNearby(v, p, q, u, v, g / 3)) {
                return false;
            }
        }
        return true;
    }

    private void gather(int[] corners) {
        double[] low = new double[3];
        double[] high = new double[3];
        for (int k = 0; k < 3; k++) {
            low[k] = Double.POSITIVE_INFINITY;
            high[k] = Double.NEGATIVE_INFINITY;
            for (int corner : corners) {
                low[k] = Math.min(low[k], mesh.xyz[3 * corner + k] - 2 * REACH_MM);
                high[k] = Math.max(high[k], mesh.xyz[3 * corner + k] + 2 * REACH_MM);
            }
        }
        nearby.clear();
        bvh.overlapping(low[0], low[1], low[2], high[0], high[1], high[2], t -> {
            nearby.add(t);
            return true;
        });
    }

    /** Whether triangle (a, b, c) meets one nearby, {@code self} apart, with vertex {@code moved} taken for {@code to}. */
    private boolean meetsNearby(int a, int b, int c, int moved, int to, int self) {
        for (int i = 0; i < nearby.size(); i++) {
            int t = nearby.get(i);
            if (t == self || mesh.isRemoved(t)) {
                continue;
            }
            int p = mesh.from(3 * t);
            int q = mesh.from(3 * t + 1);
            int r = mesh.from(3 * t + 2);
            p = p == moved ? to : p;
            q = q == moved ? to : q;
            r = r == moved ? to : r;
            if (p != q && q != r && r != p && SelfIntersections.meet(mesh.xyz, a, b, c, p, q, r)) {
                return true;
            }
        }
        return false;
    }
}
