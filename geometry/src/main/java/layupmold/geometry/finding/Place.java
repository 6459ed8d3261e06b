package layupmold.geometry.finding;

import org.joml.Vector3d;
import org.joml.Vector3dc;

/**
 * Where on the part: in the posted mesh's own coordinates scaled to mm once it is reported, in the running stage's frame
 * before.
 *
 * @param x mm
 * @param y mm
 * @param z mm
 * @param triangle index of the triangle as posted, or -1 where none applies
 */
public record Place(double x, double y, double z, int triangle) {

    public static Place at(double x, double y, double z) {
        return new Place(x, y, z, -1);
    }

    public static Place at(Vector3dc point) {
        return at(point.x(), point.y(), point.z());
    }

    /** Its coordinates alone. */
    public Vector3d point() {
        return new Vector3d(x, y, z);
    }
}
