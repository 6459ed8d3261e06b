package layupmold.geometry.predicates;

import static layupmold.geometry.predicates.Expansion.difference;
import static layupmold.geometry.predicates.Expansion.minus;
import static layupmold.geometry.predicates.Expansion.product;
import static layupmold.geometry.predicates.Expansion.sign;
import static layupmold.geometry.predicates.Expansion.sum;

/**
 * Orientation and in-circle tests whose sign is always right: a floating-point filter, then exact expansions.
 * Shewchuk 1997 gives the error bounds. Coordinates must be finite and moderate (no overflow of their fifth power).
 */
public final class Predicates {

    private static final double EPSILON = 0x1p-53;
    private static final double ORIENT2D_BOUND = (3 + 16 * EPSILON) * EPSILON;
    private static final double ORIENT3D_BOUND = (7 + 56 * EPSILON) * EPSILON;
    private static final double IN_CIRCLE_BOUND = (10 + 96 * EPSILON) * EPSILON;

    private Predicates() {
    }

    /** Positive if a, b, c turn counter-clockwise, negative if clockwise, 0 if collinear. */
    public static int orient2d(double ax, double ay, double bx, double by, double cx, double cy) {
        double left = (ax - cx) * (by - cy);
        double right = (ay - cy) * (bx - cx);
        double det = left - right;
        double bound = ORIENT2D_BOUND * (Math.abs(left) + Math.abs(right));
        if (det > bound || -det > bound) {
            return det > 0 ? 1 : -1;
        }
        return sign(minus(
                product(difference(ax, cx), difference(by, cy)),
                product(difference(ay, cy), difference(bx, cx))));
    }

    /**
     * Positive if a, b, c turn clockwise seen from d (d lies behind a triangle that is counter-clockwise from its
     * front), negative if counter-clockwise, 0 if the four are coplanar.
     */
    public static int orient3d(
            double ax, double ay, double az, double bx, double by, double bz,
            double cx, double cy, double cz, double dx, double dy, double dz) {
        double adx = ax - dx;
        double ady = ay - dy;
        double adz = az - dz;
        double bdx = bx - dx;
        double bdy = by - dy;
        double bdz = bz - dz;
        double cdx = cx - dx;
        double cdy = cy - dy;
        double cdz = cz - dz;
        double bc1 = bdx * cdy;
        double bc2 = cdx * bdy;
        double ca1 = cdx * ady;
        double ca2 = adx * cdy;
        double ab1 = adx * bdy;
        double ab2 = bdx * ady;
        double det = adz * (bc1 - bc2) + bdz * (ca1 - ca2) + cdz * (ab1 - ab2);
        double permanent = (Math.abs(bc1) + Math.abs(bc2)) * Math.abs(adz)
                + (Math.abs(ca1) + Math.abs(ca2)) * Math.abs(bdz)
                + (Math.abs(ab1) + Math.abs(ab2)) * Math.abs(cdz);
        double bound = ORIENT3D_BOUND * permanent;
        if (det > bound || -det > bound) {
            return det > 0 ? 1 : -1;
        }
        return orient3dExact(ax, ay, az, bx, by, bz, cx, cy, cz, dx, dy, dz);
    }

    /** {@link #orient3d} of four vertices of a coordinate array, each given by the index of its x. */
    public static int orient3d(double[] xyz, int a, int b, int c, int d) {
        return orient3d(xyz[a], xyz[a + 1], xyz[a + 2], xyz[b], xyz[b + 1], xyz[b + 2],
                xyz[c], xyz[c + 1], xyz[c + 2], xyz[d], xyz[d + 1], xyz[d + 2]);
    }

    private static int orient3dExact(
            double ax, double ay, double az, double bx, double by, double bz,
            double cx, double cy, double cz, double dx, double dy, double dz) {
        double[] adx = difference(ax, dx);
        double[] ady = difference(ay, dy);
        double[] adz = difference(az, dz);
        double[] bdx = difference(bx, dx);
        double[] bdy = difference(by, dy);
        double[] bdz = difference(bz, dz);
        double[] cdx = difference(cx, dx);
        double[] cdy = difference(cy, dy);
        double[] cdz = difference(cz, dz);
        double[] bc = minus(product(bdx, cdy), product(cdx, bdy));
        double[] ca = minus(product(cdx, ady), product(adx, cdy));
        double[] ab = minus(product(adx, bdy), product(bdx, ady));
        return sign(sum(sum(product(bc, adz), product(ca, bdz)), product(ab, cdz)));
    }

    /** Positive if d lies inside the circle through a, b, c (counter-clockwise), negative outside, 0 on it. */
    public static int inCircle(
            double ax, double ay, double bx, double by, double cx, double cy, double dx, double dy) {
        double adx = ax - dx;
        double ady = ay - dy;
        double bdx = bx - dx;
        double bdy = by - dy;
        double cdx = cx - dx;
        double cdy = cy - dy;
        double aLift = adx * adx + ady * ady;
        double bLift = bdx * bdx + bdy * bdy;
        double cLift = cdx * cdx + cdy * cdy;
        double bc1 = bdx * cdy;
        double bc2 = cdx * bdy;
        double ca1 = cdx * ady;
        double ca2 = adx * cdy;
        double ab1 = adx * bdy;
        double ab2 = bdx * ady;
        double det = aLift * (bc1 - bc2) + bLift * (ca1 - ca2) + cLift * (ab1 - ab2);
        double permanent = (Math.abs(bc1) + Math.abs(bc2)) * aLift
                + (Math.abs(ca1) + Math.abs(ca2)) * bLift
                + (Math.abs(ab1) + Math.abs(ab2)) * cLift;
        double bound = IN_CIRCLE_BOUND * permanent;
        if (det > bound || -det > bound) {
            return det > 0 ? 1 : -1;
        }
        return inCircleExact(ax, ay, bx, by, cx, cy, dx, dy);
    }

    private static int inCircleExact(
            double ax, double ay, double bx, double by, double cx, double cy, double dx, double dy) {
        double[] adx = difference(ax, dx);
        double[] ady = difference(ay, dy);
        double[] bdx = difference(bx, dx);
        double[] bdy = difference(by, dy);
        double[] cdx = difference(cx, dx);
        double[] cdy = difference(cy, dy);
        double[] bc = minus(product(bdx, cdy), product(cdx, bdy));
        double[] ca = minus(product(cdx, ady), product(adx, cdy));
        double[] ab = minus(product(adx, bdy), product(bdx, ady));
        double[] aLift = sum(product(adx, adx), product(ady, ady));
        double[] bLift = sum(product(bdx, bdx), product(bdy, bdy));
        double[] cLift = sum(product(cdx, cdx), product(cdy, cdy));
        return sign(sum(sum(product(bc, aLift), product(ca, bLift)), product(ab, cLift)));
    }
}
