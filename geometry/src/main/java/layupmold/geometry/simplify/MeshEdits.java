package layupmold.geometry.simplify;

import com.carrotsearch.hppc.IntArrayList;
import java.util.BitSet;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;

/** Single edits that bring a triangle nearer to its target: tries the cheapest first. Not for several threads. */
final class MeshEdits {

    private static final int[] NONE = {};
    /** A flip must leave this share of the miss at the most. */
    static final double GAIN = 0.7;
    /** Sides shorter than this are not split. */
    private static final double LEAST_SIDE_MM = 0.03;
    /** New vertices go no farther from their side's middle than this share of its length. */
    private static final double REACH_SHARE = 1;
    /** Nearer to an end than this share of the side's length, a crease is not worth a vertex of its own. */
    private static final double SNAP_SHARE = 0.3;
    private static final double REACH_MM = 0.5;
    /** Borders between labels keep their course, but for small turns into creases. */
    static final double BORDER_REACH_MM = 0.15;

    private final HalfEdgeMesh mesh;
    private final IntArrayList labels;
    private final BitSet loose;
    private final double toleranceMm;
    private final TargetProbe probe;
    private final CrossingCheck crossings;
    private final VertexMoves moves;
    private final CollapseGuard guard;
    private final HalfEdgeMesh.Fan fan = new HalfEdgeMesh.Fan();

    MeshEdits(HalfEdgeMesh mesh, TriangleMesh surface, IntArrayList labels, BitSet loose, Target target,
            double toleranceMm, CoordinateLattice lattice) {
        this.mesh = mesh;
        this.labels = labels;
        this.loose = loose;
        this.toleranceMm = toleranceMm;
        this.probe = new TargetProbe(mesh, target, toleranceMm, lattice);
        this.crossings = new CrossingCheck(mesh, surface);
        this.moves = new VertexMoves(mesh, labels, loose, probe, crossings, toleranceMm);
        this.guard = new CollapseGuard(mesh, 0);
    }

    /**
     * @param misses of triangle {@code t} at the middles of its sides and of itself
     * @param worst greatest miss of a triangle
     * @return triangles that are changed; none if nothing helps
     */
    int[] improve(int t, double[] misses, IntToDoubleFunction worst) {
        int settled = moves.settle(t);
        int[] done = settled >= 0 ? changed(moves.triangles(settled)) : flip(t, worst);
        int[] sides = {0, 1, 2};
        // Three sides: the one that misses most first.
        for (int i = 0; i < 2; i++) {
            for (int j = i + 1; j < 3; j++) {
                if (misses[sides[j]] > misses[sides[i]]) {
                    int other = sides[i];
                    sides[i] = sides[j];
                    sides[j] = other;
                }
            }
        }
        for (int i = 0; i < 3 && done.length == 0 && misses[sides[i]] > toleranceMm; i++) {
            done = splitSide(3 * t + sides[i], worst);
        }
        if (done.length == 0) {
            done = splitSide(longest(t), worst);
        }
        if (done.length == 0) {
            done = splitInside(t);
        }
        if (done.length == 0) {
            int rounded = moves.round(t, worst);
            done = rounded >= 0 ? changed(moves.triangles(rounded)) : NONE;
        }
        return done.length == 0 ? collapse(t, worst) : done;
    }

    private int longest(int t) {
        int longest = 3 * t;
        for (int h = 3 * t + 1; h < 3 * t + 3; h++) {
            if (mesh.squaredLength(mesh.from(h), mesh.to(h)) > mesh.squaredLength(mesh.from(longest), mesh.to(longest))) {
                longest = h;
            }
        }
        return longest;
    }

    /** Flips the side that leaves the least miss. */
    private int[] flip(int t, IntToDoubleFunction worst) {
        int best = -1;
        double least = Double.POSITIVE_INFINITY;
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            int g = mesh.twin(h);
            if (g < 0 || labels.get(g / 3) != labels.get(t) || guard.bend(h) <= toleranceMm) {
                continue;
            }
            double most = GAIN * Math.max(worst.applyAsDouble(t), worst.applyAsDouble(g / 3));
            double left = missAfterFlip(h, Math.min(most, least));
            if (left < Math.min(most, least) && guard.allowsCreaseFlip(h)) {
                best = h;
                least = left;
            }
        }
        if (best < 0) {
            return NONE;
        }
        int g = mesh.twin(best);
        int a = mesh.apex(best);
        int b = mesh.apex(g);
        int[] pair = {t, g / 3};
        if (!crossings.isFree(new int[] {mesh.from(best), b, a, mesh.to(best), a, b}, pair)) {
            return NONE;
        }
        mesh.flip(best);
        return changed(pair);
    }

    /** Looks no further once that is {@code enough}. */
    private double missAfterFlip(int h, double enough) {
        int a = mesh.apex(h);
        int b = mesh.apex(mesh.twin(h));
        double along = probe.missBetween(a, b) >= enough ? enough : probe.missAlong(a, b);
        return along >= enough ? enough : Math.max(along,
                Math.max(probe.missBetween(a, b, mesh.from(h)), probe.missBetween(a, b, mesh.to(h))));
    }

    /** Takes out the side of {@code t}, one end of which is loose, that leaves the least miss. */
    private int[] collapse(int t, IntToDoubleFunction worst) {
        int best = -1;
        double least = Double.POSITIVE_INFINITY;
        for (int side = 3 * t; side < 3 * t + 3; side++) {
            for (int h : new int[] {side, mesh.twin(side)}) {
                double left = h >= 0 && loose.get(mesh.from(h)) ? missAfterCollapse(h, worst) : Double.POSITIVE_INFINITY;
                if (left < least) {
                    least = left;
                    best = h;
                }
            }
        }
        if (best < 0) {
            return NONE;
        }
        mesh.fan(mesh.from(best), fan);
        int[] around = fan.triangles();
        mesh.collapse(best, fan);
        return changed(IntStream.of(around).filter(u -> !mesh.isRemoved(u)).toArray());
    }

    /** Infinite if that gains nothing, turns a triangle away from the target or makes it meet another. */
    private double missAfterCollapse(int h, IntToDoubleFunction worst) {
        int v = mesh.to(h);
        mesh.fan(mesh.from(h), fan);
        int[] around = fan.triangles();
        if (fan.onBoundary || !guard.keepsTopology(h, fan)) {
            return Double.POSITIVE_INFINITY;
        }
        IntArrayList parts = new IntArrayList();
        double before = 0;
        double sumBefore = 0;
        for (int i = 0; i < around.length; i++) {
            double miss = worst.applyAsDouble(around[i]);
            before = Math.max(before, miss);
            sumBefore += miss;
            int b = mesh.to(fan.halfEdges[i]);
            int c = mesh.apex(fan.halfEdges[i]);
            if (labels.get(around[i]) != labels.get(h / 3)) {
                return Double.POSITIVE_INFINITY;
            }
            if (b != v && c != v) {
                parts.add(v, b);
                parts.add(c);
            }
        }
        int[] corners = parts.toArray();
        double after = 0;
        double sumAfter = 0;
        for (int i = 0; i < corners.length; i += 3) {
            double miss = Math.max(probe.missAlong(v, corners[i + 1]), Math.max(probe.missAlong(v, corners[i + 2]),
                    probe.missBetween(v, corners[i + 1], corners[i + 2])));
            after = Math.max(after, miss);
            sumAfter += miss;
            if (after > before || sumAfter > GAIN * sumBefore || !probe.facesTarget(corners, i)) {
                return Double.POSITIVE_INFINITY;
            }
        }
        return crossings.isFree(corners, around) ? after : Double.POSITIVE_INFINITY;
    }

    /** Gives a side a vertex where it should have one: on a crease, to which a near end may go, else below its middle. */
    private int[] splitSide(int h, IntToDoubleFunction worst) {
        int g = mesh.twin(h);
        int u = mesh.from(h);
        int w = mesh.to(h);
        double length = Math.sqrt(mesh.squaredLength(u, w));
        if (g < 0 || length < LEAST_SIDE_MM) {
            return NONE;
        }
        boolean border = labels.get(g / 3) != labels.get(h / 3);
        double reach = Math.min(border ? BORDER_REACH_MM : REACH_MM, REACH_SHARE * length);
        double[] crease = probe.onCrease(u, w);
        if (crease != null && probe.isNear(crease, u, w, reach) && probe.project(crease, reach)) {
            for (int end : new int[] {u, w}) {
                if (probe.isNear(crease, end, end, SNAP_SHARE * length) && moves.snap(end, crease, worst)) {
                    return changed(moves.triangles(end));
                }
            }
            if (splitSide(h, crease)) {
                return changed(h / 3, g / 3, mesh.triangleCount() - 2, mesh.triangleCount() - 1);
            }
        }
        double[] middle = {(mesh.xyz[3 * u] + mesh.xyz[3 * w]) / 2, (mesh.xyz[3 * u + 1] + mesh.xyz[3 * w + 1]) / 2,
            (mesh.xyz[3 * u + 2] + mesh.xyz[3 * w + 2]) / 2};
        if (probe.project(middle, reach) && splitSide(h, middle)) {
            return changed(h / 3, g / 3, mesh.triangleCount() - 2, mesh.triangleCount() - 1);
        }
        return NONE;
    }

    private boolean splitSide(int h, double[] p) {
        int g = mesh.twin(h);
        int u = mesh.from(h);
        int w = mesh.to(h);
        int a = mesh.apex(h);
        int b = mesh.apex(g);
        double[] front = probe.normal(new int[] {u, w, a}, 0);
        double[] other = probe.normal(new int[] {w, u, b}, 0);
        int v = mesh.addVertex(p[0], p[1], p[2]);
        int[] parts = {u, v, a, v, w, a, w, v, b, v, u, b};
        if (!probe.faces(parts, 0, front) || !probe.faces(parts, 3, front) || !probe.faces(parts, 6, other) || !probe.faces(parts, 9, other)
                || !crossings.isFree(parts, new int[] {h / 3, g / 3})) {
            mesh.dropLastVertex();
            return false;
        }
        mesh.splitEdge(h, v);
        labels.add(labels.get(h / 3), labels.get(g / 3));
        loose.set(v);
        return true;
    }

    private int[] splitInside(int t) {
        int[] corners = {mesh.from(3 * t), mesh.from(3 * t + 1), mesh.from(3 * t + 2)};
        double[] p = new double[3];
        for (int i = 0; i < 9; i++) {
            p[i % 3] += mesh.xyz[3 * corners[i / 3] + i % 3] / 3;
        }
        if (!probe.project(p, REACH_MM)) {
            return NONE;
        }
        double[] front = probe.normal(corners, 0);
        int v = mesh.addVertex(p[0], p[1], p[2]);
        int[] parts = {corners[0], corners[1], v, corners[1], corners[2], v, corners[2], corners[0], v};
        if (!probe.faces(parts, 0, front) || !probe.faces(parts, 3, front) || !probe.faces(parts, 6, front)
                || !crossings.isFree(parts, new int[] {t})) {
            mesh.dropLastVertex();
            return NONE;
        }
        mesh.splitTriangle(t, v);
        labels.add(labels.get(t), labels.get(t));
        loose.set(v);
        return changed(t, mesh.triangleCount() - 2, mesh.triangleCount() - 1);
    }

    private int[] changed(int... triangles) {
        for (int t : triangles) {
            crossings.change(t);
        }
        return triangles;
    }
}
