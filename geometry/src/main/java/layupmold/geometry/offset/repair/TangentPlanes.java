package layupmold.geometry.offset.repair;

import org.joml.Matrix3d;
import org.joml.Vector3d;

/** Least-squares point of a set of planes, kept near the origin where the planes do not say. */
final class TangentPlanes {

    private final Matrix3d a = new Matrix3d().zero();
    private final Vector3d b = new Vector3d();

    /** Adds the plane with unit normal {@code n} through (x, y, z). */
    void add(double[] n, double x, double y, double z) {
        double d = n[0] * x + n[1] * y + n[2] * z;
        a.m00 += n[0] * n[0];
        a.m01 += n[0] * n[1];
        a.m02 += n[0] * n[2];
        a.m11 += n[1] * n[1];
        a.m12 += n[1] * n[2];
        a.m22 += n[2] * n[2];
        b.add(n[0] * d, n[1] * d, n[2] * d);
    }

    /** Solves (A + εI) x = b with ε a share of A's trace: far along no direction that the planes leave open. */
    double[] solve(double share) {
        double e = share * (a.m00 + a.m11 + a.m22) / 3;
        Matrix3d m = new Matrix3d(
                a.m00 + e, a.m01, a.m02,
                a.m01, a.m11 + e, a.m12,
                a.m02, a.m12, a.m22 + e);
        Vector3d x = m.invert().transform(new Vector3d(b));
        return new double[] {x.x, x.y, x.z};
    }
}
