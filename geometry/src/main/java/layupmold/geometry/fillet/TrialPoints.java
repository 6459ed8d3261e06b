package layupmold.geometry.fillet;

import layupmold.geometry.mesh.TriangleMesh;

/**
 * Points spread over a mesh's triangles, at least one each, about one for each square of the spacing: the additive
 * recurrence R2, folded into the triangle (Roberts, "The unreasonable effectiveness of quasirandom sequences", 2018).
 */
final class TrialPoints {

    private static final double STEP_U = 0.7548776662466927;
    private static final double STEP_V = 0.5698402909980532;
    private static final int MOST = 150_000;

    private final TriangleMesh mesh;
    /** Number of points on the triangles before each. */
    private final int[] first;
    final double spacingMm;

    TrialPoints(TriangleMesh mesh, double leastSpacingMm) {
        int n = mesh.triangleCount();
        double[] areas = new double[n];
        double sum = 0;
        for (int t = 0; t < n; t++) {
            areas[t] = mesh.areaNormal(t).length() / 2;
            sum += areas[t];
        }
        this.mesh = mesh;
        this.spacingMm = Math.max(leastSpacingMm, Math.sqrt(sum / MOST));
        this.first = new int[n + 1];
        for (int t = 0; t < n; t++) {
            first[t + 1] = first[t] + Math.max(1, (int) (areas[t] / (spacingMm * spacingMm)));
        }
    }

    int count() {
        return first[first.length - 1];
    }

    /** Index of the first point on a triangle; those of the next follow. */
    int first(int triangle) {
        return first[triangle];
    }

    /** Writes point {@code i}, which lies on {@code triangle}. */
    void put(int i, int triangle, double[] out) {
        int k = i - first[triangle];
        double u = fraction(1 / 3.0 + k * STEP_U);
        double v = fraction(1 / 3.0 + k * STEP_V);
        if (u + v > 1) {
            u = 1 - u;
            v = 1 - v;
        }
        double[] xyz = mesh.xyz();
        int a = 3 * mesh.triangles()[3 * triangle];
        int b = 3 * mesh.triangles()[3 * triangle + 1];
        int c = 3 * mesh.triangles()[3 * triangle + 2];
        for (int axis = 0; axis < 3; axis++) {
            out[axis] = xyz[a + axis] + u * (xyz[b + axis] - xyz[a + axis]) + v * (xyz[c + axis] - xyz[a + axis]);
        }
    }

    private static double fraction(double x) {
        return x - Math.floor(x);
    }
}
