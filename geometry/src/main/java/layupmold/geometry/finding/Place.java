package layupmold.geometry.finding;

/**
 * Where on the part, in the posted mesh's own coordinates scaled to mm.
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
}
