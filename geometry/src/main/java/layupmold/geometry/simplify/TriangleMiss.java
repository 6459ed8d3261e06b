package layupmold.geometry.simplify;

import layupmold.geometry.mesh.Planes;

/** How far triangles are off their target: at the middles of their sides and of themselves, and between where it bends. */
final class TriangleMiss {

    /** Below this cosine between a triangle's normal and the target's front the target is not flat there. */
    private static final double FLAT_COSINE = 0.99;
    private static final double[] CLOSER = {0.25, 0.75};

    private final HalfEdgeMesh mesh;
    private final Target target;
    private final int[] v = new int[3];

    TriangleMiss(HalfEdgeMesh mesh, Target target) {
        this.mesh = mesh;
        this.target = target;
    }

    /** Writes the greatest miss along each side of triangle {@code t} and inside it to four places of {@code into}. */
    void of(int t, double[] into, int at) {
        for (int k = 0; k < 3; k++) {
            v[k] = mesh.from(3 * t + k);
        }
        double[] n = Planes.normal(mesh.xyz, v[0], v[1], v[2]);
        double length = Math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]);
        double least = 1;
        for (int k = 0; k < 3; k++) {
            into[at + k] = between(k, (k + 1) % 3, 0.5);
            least = Math.min(least, target.along(n[0], n[1], n[2]) / length);
        }
        into[at + 3] = missAt(1 / 3.0, 1 / 3.0);
        least = Math.min(least, target.along(n[0], n[1], n[2]) / length);
        if (least < FLAT_COSINE) {
            for (int k = 0; k < 3; k++) {
                for (double share : CLOSER) {
                    into[at + k] = Math.max(into[at + k], between(k, (k + 1) % 3, share));
                }
            }
            into[at + 3] = Math.max(Math.max(into[at + 3], missAt(0.6, 0.2)), Math.max(missAt(0.2, 0.6), missAt(0.2, 0.2)));
        }
    }

    private double between(int a, int b, double share) {
        return missAt(a == 0 ? share : b == 0 ? 1 - share : 0, a == 1 ? share : b == 1 ? 1 - share : 0);
    }

    private double missAt(double first, double second) {
        double third = 1 - first - second;
        double[] p = mesh.xyz;
        int a = 3 * v[0];
        int b = 3 * v[1];
        int c = 3 * v[2];
        return Math.abs(target.miss(first * p[a] + second * p[b] + third * p[c],
                first * p[a + 1] + second * p[b + 1] + third * p[c + 1],
                first * p[a + 2] + second * p[b + 2] + third * p[c + 2]));
    }
}
