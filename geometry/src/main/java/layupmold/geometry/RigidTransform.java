package layupmold.geometry;

import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Matrix4d;
import org.joml.Matrix4dc;
import org.joml.Vector3d;

/**
 * A rotation followed by a translation, mm.
 *
 * @param matrix JOML column-vector convention: {@code p' = matrix · (p, 1)}; orthonormal with determinant +1
 */
public record RigidTransform(Matrix4dc matrix) {

    public RigidTransform {
        matrix = new Matrix4d(matrix);
    }

    public static RigidTransform identity() {
        return new RigidTransform(new Matrix4d());
    }

    public Vector3d apply(Vector3d point) {
        return matrix.transformPosition(point, new Vector3d());
    }

    public Vector3d applyToDirection(Vector3d direction) {
        return matrix.transformDirection(direction, new Vector3d());
    }

    /** The same map as one that may mirror. */
    public Isometry isometry() {
        return new Isometry(matrix);
    }

    public RigidTransform inverse() {
        return new RigidTransform(matrix.invertAffine(new Matrix4d()));
    }

    /** This transform first, then {@code next}. */
    public RigidTransform then(RigidTransform next) {
        return new RigidTransform(next.matrix.mul(matrix, new Matrix4d()));
    }

    /** The same triangles with every vertex moved. O(n). */
    public TriangleMesh apply(TriangleMesh mesh) {
        double[] in = mesh.xyz();
        double[] out = new double[in.length];
        for (int i = 0; i < in.length; i += 3) {
            double x = in[i];
            double y = in[i + 1];
            double z = in[i + 2];
            out[i] = matrix.m00() * x + matrix.m10() * y + matrix.m20() * z + matrix.m30();
            out[i + 1] = matrix.m01() * x + matrix.m11() * y + matrix.m21() * z + matrix.m31();
            out[i + 2] = matrix.m02() * x + matrix.m12() * y + matrix.m22() * z + matrix.m32();
        }
        return new TriangleMesh(out, mesh.triangles());
    }

    /** The matrix as 16 numbers, row by row. */
    public double[] toRowMajor() {
        return new double[] {
            matrix.m00(), matrix.m10(), matrix.m20(), matrix.m30(),
            matrix.m01(), matrix.m11(), matrix.m21(), matrix.m31(),
            matrix.m02(), matrix.m12(), matrix.m22(), matrix.m32(),
            0, 0, 0, 1};
    }
}
