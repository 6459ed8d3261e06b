package layupmold.geometry.congruence;

import org.joml.Matrix3d;
import org.joml.Matrix4d;
import org.joml.Vector3d;

/**
 * Three axes at right angles and their origin.
 *
 * @param axes as columns
 */
record Frame(Vector3d origin, Matrix3d axes) {

    /** First axis through {@code first}, second towards {@code second}; left-handed where {@code mirrored}. */
    static Frame of(Vector3d origin, Vector3d first, Vector3d second, boolean mirrored) {
        Vector3d x = first.sub(origin, new Vector3d()).normalize();
        Vector3d z = x.cross(second.sub(origin, new Vector3d()), new Vector3d()).normalize();
        Vector3d y = z.cross(x, new Vector3d());
        return new Frame(origin, new Matrix3d(x, y, mirrored ? z.negate() : z));
    }

    /** The isometry that takes this frame to another. */
    Isometry to(Frame other) {
        Matrix3d turn = new Matrix3d(other.axes).mul(new Matrix3d(axes).transpose());
        return placed(turn, origin, other.origin);
    }

    /** Turned about {@code from}, which goes to {@code to}. */
    static Isometry placed(Matrix3d turn, Vector3d from, Vector3d to) {
        Vector3d shift = to.sub(turn.transform(from, new Vector3d()), new Vector3d());
        return new Isometry(new Matrix4d(turn).setTranslation(shift));
    }
}
