package layupmold.geometry.mesh;

/** Planes of triangles, by vertex numbers. */
public final class Planes {

    private Planes() {
    }

    /** Normal of the plane through three vertices, not scaled. */
    public static double[] normal(double[] xyz, int p, int q, int r) {
        double ux = xyz[3 * q] - xyz[3 * p];
        double uy = xyz[3 * q + 1] - xyz[3 * p + 1];
        double uz = xyz[3 * q + 2] - xyz[3 * p + 2];
        double vx = xyz[3 * r] - xyz[3 * p];
        double vy = xyz[3 * r + 1] - xyz[3 * p + 1];
        double vz = xyz[3 * r + 2] - xyz[3 * p + 2];
        return new double[] {uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx};
    }

    /** Height of vertex {@code v} over the plane through {@code p} with normal {@code n}, in lengths of the normal. */
    public static double height(double[] xyz, double[] n, int p, int v) {
        return n[0] * (xyz[3 * v] - xyz[3 * p]) + n[1] * (xyz[3 * v + 1] - xyz[3 * p + 1])
                + n[2] * (xyz[3 * v + 2] - xyz[3 * p + 2]);
    }

    /** The axis that a triangle's normal is nearest to. */
    public static int dominantAxis(double[] n) {
        int axis = Math.abs(n[0]) > Math.abs(n[1]) ? 0 : 1;
        return Math.abs(n[2]) > Math.abs(n[axis]) ? 2 : axis;
    }
}
