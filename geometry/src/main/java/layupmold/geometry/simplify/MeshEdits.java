package layupmold.geometry.simplify;

import com.carrotsearch.hppc.IntArrayList;
import java.util.BitSet;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.Planes;
import layupmold.geometry.mesh.TriangleMesh;

/** Single edits that bring a triangle nearer to its target: tries the cheapest first. Not for several threads. */
final class MeshEdits {

    private static final int[] NONE = {};
    /** A flip must leave this share of the miss at the most. */
    private static final double GAIN = 0.7;
    /** Sides shorter than this are not split. */
    private static final double LEAST_SIDE_MM = 0.03;
    /** New vertices go no farther from their side's middle than this share of its length. */
    private static final double REACH_SHARE = 1;
    /** Nearer to an end than this share of the side's length, a crease is not worth a vertex of its own. */
    private static final double SNAP_SHARE = 0.3;
    private static final double REACH_MM = 0.5;
    private static final double SETTLING_REACH_MM = 1;
    /** Borders between labels keep their course, but for small turns into creases. */
    private static final double BORDER_REACH_MM = 0.15;
    /** Parts may turn by about 75° from what they replace. */
    private static final double LEAST_COSINE = 0.25;
    /** No part becomes flatter. */
    private static final double FLAT_MM = 1e-3;
    private static final int PROJECTION_STEPS = 4;
    private static final double PROJECTED_MM = 1e-6;
    /** Halvings of a side in search of a crease. */
    private static final int BISECTIONS = 6;
    /** Below this squared sine two fronts say nothing about a crease. */
    private static final double LEAST_SINE_SQUARED = 0.01;

    private final HalfEdgeMesh mesh;
    private final IntArrayList labels;
    private final BitSet loose;
    private final Target target;
    private final double toleranceMm;
    private final CoordinateLattice lattice;
    private final CrossingCheck crossings;
    private final CollapseGuard guard;
    private final HalfEdgeMesh.Fan fan = new HalfEdgeMesh.Fan();

    MeshEdits(HalfEdgeMesh mesh, TriangleMesh surface, IntArrayList labels, BitSet loose, Target target,
            double toleranceMm, CoordinateLattice lattice) {
        this.mesh = mesh;
        this.labels = labels;
        this.loose = loose;
        this.target = target;
        this.toleranceMm = toleranceMm;
        this.lattice = lattice;
        this.crossings = new CrossingCheck(mesh, surface);
        this.guard = new CollapseGuard(mesh, 0);
    }

    double missBetween(int a, int b, Target measure) {
        double[] p = mesh.xyz;
        return Math.abs(measure.miss((p[3 * a] + p[3 * b]) / 2, (p[3 * a + 1] + p[3 * b + 1]) / 2,
                (p[3 * a + 2] + p[3 * b + 2]) / 2));
    }

    double missBetween(int a, int b, int c, Target measure) {
        double[] p = mesh.xyz;
        return Math.abs(measure.miss((p[3 * a] + p[3 * b] + p[3 * c]) / 3,
                (p[3 * a + 1] + p[3 * b + 1] + p[3 * c + 1]) / 3, (p[3 * a + 2] + p[3 * b + 2] + p[3 * c + 2]) / 3));
    }

    /**
     * @param misses of triangle {@code t} at the middles of its sides and of itself
     * @param worst greatest miss of a triangle
     * @return triangles that are changed; none if nothing helps
     */
    int[] improve(int t, double[] misses, IntToDoubleFunction worst) {
        int[] done = settle(t);
        if (done.length == 0) {
            done = flip(t, worst);
        }
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

    /** Moves a loose corner that misses onto the target. */
    private int[] settle(int t) {
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            int v = mesh.from(h);
            double[] p = {mesh.xyz[3 * v], mesh.xyz[3 * v + 1], mesh.xyz[3 * v + 2]};
            if (loose.get(v) && Math.abs(target.miss(p[0], p[1], p[2])) > toleranceMm
                    && project(p, isOnBorder(v) ? BORDER_REACH_MM : SETTLING_REACH_MM)
                    && move(v, p)) {
                return changed(triangles(v));
            }
        }
        return NONE;
    }

    /** The triangles around a vertex. */
    private int[] triangles(int v) {
        mesh.fan(v, fan);
        return IntStream.range(0, fan.size).map(i -> fan.halfEdges[i] / 3).toArray();
    }

    private boolean isOnBorder(int v) {
        int[] around = triangles(v);
        return IntStream.of(around).anyMatch(t -> labels.get(t) != labels.get(around[0]));
    }

    private boolean move(int v, double[] p) {
        int[] around = triangles(v);
        int[] corners = new int[3 * around.length];
        double[] fronts = new double[3 * around.length];
        for (int i = 0; i < around.length; i++) {
            for (int k = 0; k < 3; k++) {
                corners[3 * i + k] = mesh.from(3 * around[i] + k);
            }
            System.arraycopy(normal(corners, 3 * i), 0, fronts, 3 * i, 3);
        }
        double[] before = {mesh.xyz[3 * v], mesh.xyz[3 * v + 1], mesh.xyz[3 * v + 2]};
        System.arraycopy(p, 0, mesh.xyz, 3 * v, 3);
        boolean sound = !fan.onBoundary;
        for (int i = 0; i < around.length && sound; i++) {
            sound = faces(corners, 3 * i, new double[] {fronts[3 * i], fronts[3 * i + 1], fronts[3 * i + 2]});
        }
        if (sound && crossings.isFree(corners, around)) {
            return true;
        }
        System.arraycopy(before, 0, mesh.xyz, 3 * v, 3);
        return false;
    }

    /** Moves a vertex to a crease beside it if the triangles around then miss by less. */
    private boolean snap(int v, double[] p, IntToDoubleFunction worst) {
        double most = IntStream.of(triangles(v)).mapToDouble(worst).max().orElse(0);
        double[] before = {mesh.xyz[3 * v], mesh.xyz[3 * v + 1], mesh.xyz[3 * v + 2]};
        if (!loose.get(v) || isOnBorder(v) || !move(v, p)) {
            return false;
        }
        for (int t : triangles(v)) {
            int a = mesh.from(3 * t);
            int b = mesh.from(3 * t + 1);
            int c = mesh.from(3 * t + 2);
            double left = Math.max(Math.max(missBetween(a, b, target), missBetween(b, c, target)),
                    Math.max(missBetween(c, a, target), missBetween(a, b, c, target)));
            if (left > GAIN * most) {
                System.arraycopy(before, 0, mesh.xyz, 3 * v, 3);
                return false;
            }
        }
        return true;
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
        double along = missBetween(a, b, target) >= enough ? enough : missAlong(a, b);
        return along >= enough ? enough : Math.max(along,
                Math.max(missBetween(a, b, mesh.from(h), target), missBetween(a, b, mesh.to(h), target)));
    }

    /** Greatest miss at the quarters of a side that is new. */
    private double missAlong(int a, int b) {
        double[] p = mesh.xyz;
        double worst = 0;
        for (double share = 0.25; share < 1; share += 0.25) {
            double rest = 1 - share;
            worst = Math.max(worst, Math.abs(target.miss(share * p[3 * a] + rest * p[3 * b],
                    share * p[3 * a + 1] + rest * p[3 * b + 1], share * p[3 * a + 2] + rest * p[3 * b + 2])));
        }
        return worst;
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
        int[] around = triangles(mesh.from(best));
        mesh.collapse(best, fan);
        return changed(IntStream.of(around).filter(u -> !mesh.isRemoved(u)).toArray());
    }

    /** Infinite if that gains nothing, turns a triangle away from the target or makes it meet another. */
    private double missAfterCollapse(int h, IntToDoubleFunction worst) {
        int v = mesh.to(h);
        int[] around = triangles(mesh.from(h));
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
            double miss = Math.max(missAlong(v, corners[i + 1]), Math.max(missAlong(v, corners[i + 2]),
                    missBetween(v, corners[i + 1], corners[i + 2], target)));
            after = Math.max(after, miss);
            sumAfter += miss;
            if (after > before || sumAfter > GAIN * sumBefore || !facesTarget(corners, i)) {
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
        double[] crease = onCrease(u, w);
        if (crease != null && isNear(crease, u, w, reach) && project(crease, reach)) {
            for (int end : new int[] {u, w}) {
                if (isNear(crease, end, end, SNAP_SHARE * length) && snap(end, crease, worst)) {
                    return changed(triangles(end));
                }
            }
            if (splitSide(h, crease)) {
                return changed(h / 3, g / 3, mesh.triangleCount() - 2, mesh.triangleCount() - 1);
            }
        }
        double[] middle = {(mesh.xyz[3 * u] + mesh.xyz[3 * w]) / 2, (mesh.xyz[3 * u + 1] + mesh.xyz[3 * w + 1]) / 2,
            (mesh.xyz[3 * u + 2] + mesh.xyz[3 * w + 2]) / 2};
        if (project(middle, reach) && splitSide(h, middle)) {
            return changed(h / 3, g / 3, mesh.triangleCount() - 2, mesh.triangleCount() - 1);
        }
        return NONE;
    }

    /** Whether a point is within {@code reachMm} of the middle between two vertices. */
    private boolean isNear(double[] p, int u, int w, double reachMm) {
        double square = 0;
        for (int k = 0; k < 3; k++) {
            double d = p[k] - (mesh.xyz[3 * u + k] + mesh.xyz[3 * w + k]) / 2;
            square += d * d;
        }
        return square < reachMm * reachMm;
    }

    private boolean splitSide(int h, double[] p) {
        int g = mesh.twin(h);
        int u = mesh.from(h);
        int w = mesh.to(h);
        int a = mesh.apex(h);
        int b = mesh.apex(g);
        double[] front = normal(new int[] {u, w, a}, 0);
        double[] other = normal(new int[] {w, u, b}, 0);
        int v = mesh.addVertex(p[0], p[1], p[2]);
        int[] parts = {u, v, a, v, w, a, w, v, b, v, u, b};
        if (!faces(parts, 0, front) || !faces(parts, 3, front) || !faces(parts, 6, other) || !faces(parts, 9, other)
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
        if (!project(p, REACH_MM)) {
            return NONE;
        }
        double[] front = normal(corners, 0);
        int v = mesh.addVertex(p[0], p[1], p[2]);
        int[] parts = {corners[0], corners[1], v, corners[1], corners[2], v, corners[2], corners[0], v};
        if (!faces(parts, 0, front) || !faces(parts, 3, front) || !faces(parts, 6, front)
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

    /** Moves {@code p} onto the target and the lattice; false if that is farther than {@code reachMm} or leads nowhere. */
    private boolean project(double[] p, double reachMm) {
        double[] start = p.clone();
        double miss = target.miss(p[0], p[1], p[2]);
        for (int i = 0; i < PROJECTION_STEPS && Math.abs(miss) > PROJECTED_MM; i++) {
            double x = target.along(1, 0, 0);
            double y = target.along(0, 1, 0);
            double z = target.along(0, 0, 1);
            p[0] -= miss * x;
            p[1] -= miss * y;
            p[2] -= miss * z;
            miss = target.miss(p[0], p[1], p[2]);
        }
        lattice.round(p);
        double square = 0;
        for (int k = 0; k < 3; k++) {
            square += (p[k] - start[k]) * (p[k] - start[k]);
        }
        return Math.abs(miss) < toleranceMm / 2 && square <= reachMm * reachMm;
    }

    /**
     * Where the target's planes on both sides of a crease meet below a side, or null if it has none there. The crease is
     * where the target's front turns from that at one end to that at the other.
     */
    private double[] onCrease(int a, int b) {
        double[] p = {mesh.xyz[3 * a], mesh.xyz[3 * a + 1], mesh.xyz[3 * a + 2]};
        double[] q = {mesh.xyz[3 * b], mesh.xyz[3 * b + 1], mesh.xyz[3 * b + 2]};
        double[] m = plane(p);
        double[] n = plane(q);
        for (int i = 0; i < BISECTIONS; i++) {
            double[] middle = {(p[0] + q[0]) / 2, (p[1] + q[1]) / 2, (p[2] + q[2]) / 2};
            double[] there = plane(middle);
            if (dot(there, m) >= dot(there, n)) {
                p = middle;
                m = there;
            } else {
                q = middle;
                n = there;
            }
        }
        double cosine = dot(m, n);
        double sine = 1 - cosine * cosine;
        if (sine < LEAST_SINE_SQUARED) {
            return null;
        }
        double alongM = (cosine * n[3] - m[3]) / sine;
        double alongN = (cosine * m[3] - n[3]) / sine;
        return new double[] {(p[0] + q[0]) / 2 + alongM * m[0] + alongN * n[0],
            (p[1] + q[1]) / 2 + alongM * m[1] + alongN * n[1], (p[2] + q[2]) / 2 + alongM * m[2] + alongN * n[2]};
    }

    /** The target's front at a point, and how far the point misses. */
    private double[] plane(double[] p) {
        double miss = target.miss(p[0], p[1], p[2]);
        return new double[] {target.along(1, 0, 0), target.along(0, 1, 0), target.along(0, 0, 1), miss};
    }

    private static double dot(double[] a, double[] b) {
        return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
    }

    private double[] normal(int[] corners, int at) {
        return Planes.normal(mesh.xyz, corners[at], corners[at + 1], corners[at + 2]);
    }

    /** Whether a triangle has height and faces along a normal, or else along its target. */
    private boolean faces(int[] corners, int at, double[] front) {
        double[] n = normal(corners, at);
        double length = Math.sqrt(dot(n, n));
        return length > FLAT_MM * longest(corners, at) && dot(n, front) >= LEAST_COSINE * length * Math.sqrt(dot(front, front))
                || facesTarget(corners, at);
    }

    private boolean facesTarget(int[] corners, int at) {
        double[] n = normal(corners, at);
        double length = Math.sqrt(dot(n, n));
        missBetween(corners[at], corners[at + 1], corners[at + 2], target);
        return length > FLAT_MM * longest(corners, at) && target.along(n[0], n[1], n[2]) >= LEAST_COSINE * length;
    }

    private double longest(int[] corners, int at) {
        double longest = 0;
        for (int k = 0; k < 3; k++) {
            longest = Math.max(longest, mesh.squaredLength(corners[at + k], corners[at + (k + 1) % 3]));
        }
        return Math.sqrt(longest);
    }
}
