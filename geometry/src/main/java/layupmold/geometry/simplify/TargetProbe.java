package layupmold.geometry.simplify;

import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.Planes;

/** What edits ask about a mesh and its target: how far places miss, where they should be, which way triangles face. */
final class TargetProbe {

    /** Triangles may turn by about 75° from what they should face. */
    static final double LEAST_COSINE = 0.25;
    /** Triangles flatter than this face nowhere. */
    private static final double FLAT_MM = 1e-3;
    private static final int PROJECTION_STEPS = 4;
    private static final double PROJECTED_MM = 1e-6;
    /** Halvings of a side in search of a crease. */
    private static final int BISECTIONS = 6;
    /** Below this squared sine two fronts say nothing about a crease. */
    private static final double LEAST_SINE_SQUARED = 0.01;

    private final HalfEdgeMesh mesh;
    private final Target target;
    private final TriangleMiss measure;
    private final double toleranceMm;
    private final CoordinateLattice lattice;

    /** @param toleranceMm projected points miss by no more than half of it */
    TargetProbe(HalfEdgeMesh mesh, Target target, double toleranceMm, CoordinateLattice lattice) {
        this.mesh = mesh;
        this.target = target;
        this.measure = new TriangleMiss(target);
        this.toleranceMm = toleranceMm;
        this.lattice = lattice;
    }

    /** Says that much will be asked about places beside a triangle. */
    void beside(int t) {
        double[] p = new double[3];
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            for (int k = 0; k < 3; k++) {
                p[k] += mesh.xyz[3 * mesh.from(h) + k] / 3;
            }
        }
        target.beside(p[0], p[1], p[2], longest(mesh.from(3 * t), mesh.from(3 * t + 1), mesh.from(3 * t + 2)));
    }

    double miss(double[] p) {
        return Math.abs(target.miss(p[0], p[1], p[2]));
    }

    double[] place(int v) {
        return new double[] {mesh.xyz[3 * v], mesh.xyz[3 * v + 1], mesh.xyz[3 * v + 2]};
    }

    /** At {@code share} of the way from one vertex to another. */
    double[] between(int a, int b, double share) {
        double[] p = new double[3];
        for (int k = 0; k < 3; k++) {
            p[k] = (1 - share) * mesh.xyz[3 * a + k] + share * mesh.xyz[3 * b + k];
        }
        return p;
    }

    /** The point of the lattice at {@code share} of the way from one point to another. */
    double[] between(double[] p, double[] q, double share) {
        double[] r = new double[3];
        for (int k = 0; k < 3; k++) {
            r[k] = (1 - share) * p[k] + share * q[k];
        }
        lattice.round(r);
        return r;
    }

    /** Greatest miss at the middles of a triangle's sides and of itself. */
    double missAtMiddles(int a, int b, int c) {
        return Math.max(Math.max(missBetween(a, b), missBetween(b, c)),
                Math.max(missBetween(c, a), missBetween(a, b, c)));
    }

    private double missBetween(int a, int b) {
        double[] p = mesh.xyz;
        return Math.abs(target.miss((p[3 * a] + p[3 * b]) / 2, (p[3 * a + 1] + p[3 * b + 1]) / 2,
                (p[3 * a + 2] + p[3 * b + 2]) / 2));
    }

    private double missBetween(int a, int b, int c) {
        double[] p = mesh.xyz;
        return Math.abs(target.miss((p[3 * a] + p[3 * b] + p[3 * c]) / 3,
                (p[3 * a + 1] + p[3 * b + 1] + p[3 * c + 1]) / 3, (p[3 * a + 2] + p[3 * b + 2] + p[3 * c + 2]) / 3));
    }

    /** Greatest miss of a triangle; looks no further once that is more than {@code enough}. */
    double missOf(int a, int b, int c, double enough) {
        return measure.worst(mesh.xyz, a, b, c, enough);
    }

    /** Whether a point is within {@code reachMm} of the middle between two vertices. */
    boolean isNear(double[] p, int u, int w, double reachMm) {
        double square = 0;
        for (int k = 0; k < 3; k++) {
            double d = p[k] - (mesh.xyz[3 * u + k] + mesh.xyz[3 * w + k]) / 2;
            square += d * d;
        }
        return square < reachMm * reachMm;
    }

    /** Moves {@code p} onto the target and the lattice; false if that is farther than {@code reachMm} or leads nowhere. */
    boolean project(double[] p, double reachMm) {
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
    double[] onCrease(int a, int b) {
        double[] p = place(a);
        double[] q = place(b);
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

    /** Where a vertex on a mitred edge would be were the edge rounded, as far as {@code reachMm}; null if it is already. */
    double[] onRound(int v, double reachMm) {
        double[] p = place(v);
        target.miss(p[0], p[1], p[2]);
        double over = target.overRoundMm();
        if (over <= toleranceMm || over > reachMm) {
            return null;
        }
        double[] front = {target.along(1, 0, 0), target.along(0, 1, 0), target.along(0, 0, 1)};
        for (int k = 0; k < 3; k++) {
            p[k] -= over * front[k];
        }
        lattice.round(p);
        return p;
    }

    /** The target's front at a point, and how far the point misses. */
    private double[] plane(double[] p) {
        double miss = target.miss(p[0], p[1], p[2]);
        return new double[] {target.along(1, 0, 0), target.along(0, 1, 0), target.along(0, 0, 1), miss};
    }

    private static double dot(double[] a, double[] b) {
        return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
    }

    double[] normal(int[] corners, int at) {
        return Planes.normal(mesh.xyz, corners[at], corners[at + 1], corners[at + 2]);
    }

    /** Whether a triangle has height and faces along a normal, or else along its target. */
    boolean faces(int[] corners, int at, double[] front) {
        double[] n = normal(corners, at);
        double length = Math.sqrt(dot(n, n));
        return length > FLAT_MM * longest(corners, at) && dot(n, front) >= LEAST_COSINE * length * Math.sqrt(dot(front, front))
                || facesTarget(corners, at, LEAST_COSINE);
    }

    /** The same along its target, within the angle of {@code cosine}. */
    boolean facesTarget(int[] corners, int at, double cosine) {
        double[] n = normal(corners, at);
        double length = Math.sqrt(dot(n, n));
        missBetween(corners[at], corners[at + 1], corners[at + 2]);
        return length > FLAT_MM * longest(corners, at) && target.along(n[0], n[1], n[2]) >= cosine * length;
    }

    private double longest(int[] corners, int at) {
        return longest(corners[at], corners[at + 1], corners[at + 2]);
    }

    /** Longest side of a triangle. */
    double longest(int a, int b, int c) {
        return Math.sqrt(Math.max(mesh.squaredLength(a, b), Math.max(mesh.squaredLength(b, c), mesh.squaredLength(c, a))));
    }
}
