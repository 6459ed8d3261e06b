package layupmold.samples.heron;

import layupmold.geometry.shape.Bowl;
import layupmold.geometry.shape.Profile;
import layupmold.geometry.shape.Surface;
import org.joml.Vector3d;

/**
 * An ellipsoid facing +z, its top at the origin of the parameters; distance from there is arc length on the ball of
 * {@code radiusMm} before it is stretched. Its centre is the origin of space.
 *
 * @param radiusMm of the ball
 * @param scaleX stretch along x, {@code scaleY} and {@code scaleZ} likewise
 */
record ScaledBall(double radiusMm, double scaleX, double scaleY, double scaleZ, Bowl ball) implements Surface {

    static ScaledBall of(double radiusMm, double scaleX, double scaleY, double scaleZ) {
        return new ScaledBall(radiusMm, scaleX, scaleY, scaleZ,
                new Bowl(0, 0, Profile.start().turn(radiusMm, 175)));
    }

    @Override
    public Vector3d at(double u, double v) {
        Vector3d p = ball.at(u, v);
        return p.set(p.x * scaleX, p.y * scaleY, (p.z + radiusMm) * scaleZ);
    }
}
