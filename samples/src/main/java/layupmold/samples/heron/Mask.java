package layupmold.samples.heron;

import java.util.List;
import layupmold.geometry.shape.Outline;
import layupmold.geometry.shape.PlanarDomain;
import layupmold.geometry.shape.ScalarField;
import layupmold.geometry.shape.Surface;
import org.joml.Vector3d;

/** The beak mask: brow, two eye openings and a long beak with its culmen, mouth line and nostrils. */
final class Mask {

    private static final double EYE_Y = 44;
    private static final double EYE_ANGLE_DEG = 29;

    /** y, centre height, half width, half height, keel. */
    private static final double[][] SECTIONS = {
        {-170, -18, 8, 8, 0}, {-166, -10, 8, 8, 0}, {-160, -4, 9, 9, 0}, {-150, -1, 11.5, 14.5, 0.8},
        {-134, 0, 15.5, 20, 1.6}, {-114, 0, 19.5, 25.5, 2.2}, {-94, 0, 23.5, 30.5, 2.6}, {-74, 0, 27.5, 35.5, 2.8},
        {-54, 0, 33, 41, 3}, {-34, 0, 42, 47, 3}, {-14, 0, 55, 53, 3}, {6, 0, 70, 58, 2.5}, {26, 0, 82, 63, 1},
        {46, 0, 89, 67, 0}, {66, 0, 91, 69, 0}, {86, -3, 89, 69, 0}, {106, -7, 84, 66, 0}, {126, -12, 74, 60, 0}};

    /** Finer than elsewhere: the eyes' rims are looked at. */
    private static final int RIM_SEGMENTS = 8;

    private Mask() {
    }

    static PartDesign design() {
        Loft loft = new Loft(SECTIONS);
        double vEye = loft.vAtY(EYE_Y);
        double uEye = loft.u(EYE_ANGLE_DEG, vEye);
        Surface surface = Sculpt.of(loft, sculpture(loft, uEye, vEye));
        double[] perimeter = Outline.starShaped(0, loft.vAtY(20), 240, (u, v) -> inside(loft, u, v),
                PartDesign.LOOP_SPACING_MM);
        double[] left = Outline.ellipse(-uEye, vEye, 17, 9.5, -20, PartDesign.LOOP_SPACING_MM);
        double[] right = Outline.ellipse(uEye, vEye, 17, 9.5, 20, PartDesign.LOOP_SPACING_MM);
        PlanarDomain domain = new PlanarDomain(perimeter, List.of(left, right));
        ScalarField size = (u, v) -> Math.min(4.5, 1.2 + 0.055 * loft.radiusAt(v));
        ScalarField thickness = (u, v) -> 2.4 + 0.5 * StrictMath.sin(u / 31) * StrictMath.cos(v / 43)
                - 0.5 * Sculpt.smoothStep(20, 8, loft.radiusAt(v));
        return new PartDesign(surface, domain, lines(loft, domain), thickness, size, RIM_SEGMENTS);
    }

    /** Sunken sockets, brows above them, cheeks below. */
    private static ScalarField sculpture(Loft loft, double uEye, double vEye) {
        ScalarField all = ScalarField.constant(0);
        for (int side = -1; side <= 1; side += 2) {
            double[] brow = {side * (uEye - 34), vEye - 26, side * (uEye - 12), vEye + 12, side * (uEye + 10),
                vEye + 23, side * (uEye + 34), vEye + 25};
            all = all.plus(Sculpt.at(side * uEye, vEye, -5, 30, 22)).plus(Sculpt.along(brow, 6, 11))
                    .plus(Sculpt.at(side * (uEye + 4), vEye - 42, 4, 26, 20));
        }
        return all;
    }

    private static double inside(Loft loft, double u, double v) {
        if (Math.abs(loft.angleDeg(u, v)) > 120 || v < 0 || v > loft.length()) {
            return -1;
        }
        Vector3d p = loft.at(u, v);
        double lift = 9 * StrictMath.exp(-StrictMath.pow((p.y - 8) / 34, 2));
        double side = p.z - 6 - lift;
        double brow = 100 - p.x * p.x / 230 - p.y;
        return Sculpt.softMin(side, brow, 18);
    }

    private static DetailLines lines(Loft loft, PlanarDomain domain) {
        DetailLines lines = new DetailLines(0.6);
        for (int side = -1; side <= 1; side += 2) {
            int s = side;
            lines.add(path(loft, 8, -149, y -> s * (54 + 8 * Sculpt.smoothStep(-30, -140, y))), 1.6, 0.6);
            lines.add(path(loft, -16, -52, y -> s * (30 + 2 * StrictMath.sin((y + 16) / 12))), 1.8, 0.6);
            lines.add(path(loft, -8, -140, y -> s * 17.0), 1.0, 0.4);
        }
        ScalarField plumage = (u, v) -> {
            double edge = 16 - 0.0032 * u * u;
            double y = loft.at(u, v).y;
            return Math.min(y - edge, domain.distanceToLoops(u, v) - 5);
        };
        double[] box = {-150, loft.vAtY(-20), 150, loft.vAtY(112)};
        Feathers.rows(lines, 19, 18, 1.8, plumage, box);
        return lines;
    }

    private static double[] path(Loft loft, double fromY, double toY, java.util.function.DoubleUnaryOperator angleDeg) {
        int steps = 60;
        double[] path = new double[2 * (steps + 1)];
        for (int i = 0; i <= steps; i++) {
            double y = fromY + (toY - fromY) * i / steps;
            double v = loft.vAtY(y);
            path[2 * i] = loft.u(angleDeg.applyAsDouble(y), v);
            path[2 * i + 1] = v;
        }
        return path;
    }
}
