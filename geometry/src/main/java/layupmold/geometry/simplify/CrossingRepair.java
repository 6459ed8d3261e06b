package layupmold.geometry.simplify;

import com.carrotsearch.hppc.IntArrayList;
import java.util.Arrays;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Takes out the last crossings of a surface that is sound but for places narrower than its coordinates' spacing:
 * collapses edges beside each crossing pair, or shifts a corner of it by a few steps of the lattice, if the triangles that
 * change then meet nothing. Exact in what it accepts; what it cannot free stays as it is, for the caller's check to find.
 */
public final class CrossingRepair {

    private static final int ROUNDS = 6;
    private static final int PAIR_LIMIT = 2_000;
    /** No vertex moves farther than this. */
    private static final double REACH_MM = 0.3;
    /** How far the triangles that change may be off: other steps bring them nearer again, but none takes crossings out. */
    private static final double DEVIATION_MM = 0.1;
    /** Shifts, in steps of the lattice, along its axes and diagonals. */
    private static final int[] SHIFTS = {2, 8, 32};
    private static final double SHIFTED_MM = 0.01;

    private final HalfEdgeMesh mesh;
    private final TriangleBvh bvh;
    private final CollapseGuard guard;
    private final Target target;
    private final CoordinateLattice lattice;
    private final boolean[] fixed;
    private final HalfEdgeMesh.Fan fan = new HalfEdgeMesh.Fan();
    private final IntArrayList nearby = new IntArrayList();

    private CrossingRepair(Simplifier.Result surface, TriangleBvh bvh, Target target, CoordinateLattice lattice) {
        this.mesh = new HalfEdgeMesh(new TriangleMesh(surface.mesh().xyz().clone(), surface.mesh().triangles()));
        this.bvh = bvh;
        this.guard = new CollapseGuard(mesh, 0);
        this.target = target;
        this.lattice = lattice;
        this.fixed = surface.fixed().clone();
    }

    /** As {@link #repair(Simplifier.Result, Target, CoordinateLattice)}, but every vertex that is left keeps its place. */
    public static Simplifier.Result collapse(Simplifier.Result surface, Target target) {
        return repair(surface, target, null);
    }

    /**
     * O(n log n) a round; most surfaces need none.
     *
     * @param target what the surface stands for
     * @param lattice the surface's coordinates; null to shift nothing
     * @return what is left; vertices of triangles that were changed are not fixed any more
     */
    public static Simplifier.Result repair(Simplifier.Result surface, Target target, CoordinateLattice lattice) {
        Simplifier.Result current = surface;
        for (int round = 0; round < ROUNDS; round++) {
            TriangleBvh bvh = TriangleBvh.of(current.mesh());
            int[] pairs = SelfIntersections.find(current.mesh(), bvh, PAIR_LIMIT);
            if (pairs.length == 0) {
                return current;
            }
            CrossingRepair repair = new CrossingRepair(current, bvh, target, lattice);
            boolean changed = false;
            for (int triangle : pairs) {
                changed |= repair.isCrossed(triangle) && (repair.collapse(triangle) || repair.shift(triangle));
            }
            if (!changed) {
                return current;
            }
            current = Simplifier.Result.of(repair.mesh, current.labels(), repair.fixed);
        }
        return current;
    }

    /** Collapses the edge at the triangle's corners that leaves the least miss and frees what changes; false if none. */
    private boolean collapse(int triangle) {
        int best = -1;
        double least = DEVIATION_MM;
        for (int corner = 0; corner < 3; corner++) {
            int u = mesh.from(3 * triangle + corner);
            mesh.fan(u, fan);
            for (int i = 0; i < fan.size; i++) {
                int h = fan.halfEdges[i];
                if (mesh.squaredLength(u, mesh.to(h)) >= REACH_MM * REACH_MM || !guard.keepsTopology(h, fan)) {
                    continue;
                }
                double miss = missAfter(h);
                if (miss < least && isFreeAfter(h)) {
                    least = miss;
                    best = h;
                }
            }
        }
        if (best < 0) {
            return false;
        }
        mesh.fan(mesh.from(best), fan);
        for (int i = 0; i < fan.size; i++) {
            fixed[mesh.to(fan.halfEdges[i])] = false;
            fixed[mesh.apex(fan.halfEdges[i])] = false;
        }
        mesh.collapse(best, fan);
        return true;
    }

    /** Shifts a corner of the triangle so that what changes meets nothing; false if none can be. */
    private boolean shift(int triangle) {
        if (lattice == null) {
            return false;
        }
        for (int steps : SHIFTS) {
            for (int corner = 0; corner < 3; corner++) {
                int v = mesh.from(3 * triangle + corner);
                double[] before = {mesh.xyz[3 * v], mesh.xyz[3 * v + 1], mesh.xyz[3 * v + 2]};
                mesh.fan(v, fan);
                int[] around = fan.triangles();
                for (int way = 0; way < 27 && !fan.onBoundary; way++) {
                    for (int k = 0, digits = way; k < 3; k++, digits /= 3) {
                        mesh.xyz[3 * v + k] = before[k] + (digits % 3 - 1) * steps * lattice.stepMm();
                    }
                    if (Math.abs(target.miss(mesh.xyz[3 * v], mesh.xyz[3 * v + 1], mesh.xyz[3 * v + 2])) < SHIFTED_MM
                            && Arrays.stream(around).noneMatch(this::isCrossed)) {
                        fixed[v] = false;
                        return true;
                    }
                }
                System.arraycopy(before, 0, mesh.xyz, 3 * v, 3);
            }
        }
        return false;
    }

    /** Greatest miss, at their middles, of the sides and triangles that change when the start of {@code h} is at its end. */
    private double missAfter(int h) {
        double[] xyz = mesh.xyz;
        int v = 3 * mesh.to(h);
        double worst = 0;
        for (int i = 0; i < fan.size; i++) {
            int p = 3 * mesh.to(fan.halfEdges[i]);
            int q = 3 * mesh.apex(fan.halfEdges[i]);
            if (p != v && q != v) {
                worst = Math.max(worst, Math.abs(target.miss((xyz[v] + xyz[p]) / 2, (xyz[v + 1] + xyz[p + 1]) / 2,
                        (xyz[v + 2] + xyz[p + 2]) / 2)));
                worst = Math.max(worst, Math.abs(target.miss((xyz[v] + xyz[p] + xyz[q]) / 3,
                        (xyz[v + 1] + xyz[p + 1] + xyz[q + 1]) / 3, (xyz[v + 2] + xyz[p + 2] + xyz[q + 2]) / 3)));
            }
        }
        return worst;
    }

    private boolean isCrossed(int triangle) {
        if (mesh.isRemoved(triangle)) {
            return false;
        }
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
