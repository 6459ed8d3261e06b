package layupmold.geometry.opening;

/** Measures of triangles whose corners are vertex indices into an xyz array. */
final class Triangles {

    private Triangles() {
    }

    static double distance(double[] xyz, int a, int b) {
        double x = xyz[3 * b] - xyz[3 * a];
        double y = xyz[3 * b + 1] - xyz[3 * a + 1];
        double z = xyz[3 * b + 2] - xyz[3 * a + 2];
        return Math.sqrt(x * x + y * y + z * z);
    }

    /** Writes the normal of abc, as long as twice its area, to {@code out[at..at+2]}. */
    static void normal(double[] xyz, int a, int b, int c, double[] out, int at) {
        double ux = xyz[3 * b] - xyz[3 * a];
        double uy = xyz[3 * b + 1] - xyz[3 * a + 1];
        double uz = xyz[3 * b + 2] - xyz[3 * a + 2];
        double vx = xyz[3 * c] - xyz[3 * a];
        double vy = xyz[3 * c + 1] - xyz[3 * a + 1];
        double vz = xyz[3 * c + 2] - xyz[3 * a + 2];
        out[at] = uy * vz - uz * vy;
        out[at + 1] = uz * vx - ux * vz;
        out[at + 2] = ux * vy - uy * vx;
    }

    static double area(double[] xyz, int a, int b, int c) {
        double ux = xyz[3 * b] - xyz[3 * a];
        double uy = xyz[3 * b + 1] - xyz[3 * a + 1];
        double uz = xyz[3 * b + 2] - xyz[3 * a + 2];
        double vx = xyz[3 * c] - xyz[3 * a];
        double vy = xyz[3 * c + 1] - xyz[3 * a + 1];
        double vz = xyz[3 * c + 2] - xyz[3 * a + 2];
        double nx = uy * vz - uz * vy;
        double ny = uz * vx - ux * vz;
        double nz = ux * vy - uy * vx;
        return Math.sqrt(nx * nx + ny * ny + nz * nz) / 2;
    }

    /** Cotangent of the angle at {@code p} between the directions to a and b; infinite where they line up. */
    static double cotangent(double[] xyz, int p, int a, int b) {
        double ux = xyz[3 * a] - xyz[3 * p];
        double uy = xyz[3 * a + 1] - xyz[3 * p + 1];
        double uz = xyz[3 * a + 2] - xyz[3 * p + 2];
        double vx = xyz[3 * b] - xyz[3 * p];
        double vy = xyz[3 * b + 1] - xyz[3 * p + 1];
        double vz = xyz[3 * b + 2] - xyz[3 * p + 2];
        return (ux * vx + uy * vy + uz * vz) / (2 * area(xyz, p, a, b));
    }

    /** Cosine of the angle between two vectors of an array; 1 if either has no length. */
    static double cosine(double[] u, int i, double[] v, int j) {
        double dot = u[i] * v[j] + u[i + 1] * v[j + 1] + u[i + 2] * v[j + 2];
        double lengths = length(u, i) * length(v, j);
        return lengths > 0 ? dot / lengths : 1;
    }

    static double length(double[] u, int i) {
        return Math.sqrt(u[i] * u[i] + u[i + 1] * u[i + 1] + u[i + 2] * u[i + 2]);
    }
}
