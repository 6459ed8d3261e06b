package layupmold.samples.heron;

import java.util.List;
import layupmold.geometry.shape.Outline;
import layupmold.geometry.shape.PlanarDomain;
import layupmold.geometry.shape.ScalarField;
import layupmold.geometry.shape.Surface;

/** The left forearm shell: a tapered half tube with long wing feathers, a swept elbow edge and two strap slots. */
final class Forearm {

    /** y, centre height, half width, half height, keel. */
    private static final double[][] SECTIONS = {
        {-140, 2, 35, 31, 0}, {-120, 1, 36, 32, 0}, {-100, 0, 37.5, 33, 0}, {-80, 0, 39.5, 35, 0.5},
        {-60, 0, 42, 37.5, 1}, {-40, 0, 45, 40.5, 1.5}, {-20, 0, 48, 43.5, 2}, {0, 0, 51, 46.5, 2.5},
        {20, 0, 53.5, 49, 3}, {40, 0, 55.5, 51, 3}, {60, 0, 57, 52.5, 3}, {80, 1, 58, 53.5, 2.5},
        {100, 3, 59, 54, 2}, {120, 6, 60, 54.5, 1.5}, {140, 10, 61, 55, 1}};

    private Forearm() {
    }

    static PartDesign design() {
        Loft loft = new Loft(SECTIONS);
        double middle = loft.vAtY(-5);
        Surface surface = Sculpt.of(loft, Sculpt.at(6, loft.vAtY(30), 3, 26, 60));
        double[] perimeter = Outline.starShaped(0, middle, 240, (u, v) -> inside(loft, u, v),
                PartDesign.LOOP_SPACING_MM);
        PlanarDomain domain = new PlanarDomain(perimeter,
                List.of(slot(loft, -58, 62), slot(loft, 58, 62), slot(loft, -58, -72), slot(loft, 58, -72)));
        ScalarField wall = (u, v) -> 2.2 + 0.5 * StrictMath.sin(v / 33 + u / 50);
        return new PartDesign(surface, domain, lines(loft, domain), wall, (u, v) -> 1.4 + 0.05 * loft.radiusAt(v));
    }

    private static double[] slot(Loft loft, double angleDeg, double y) {
        double v = loft.vAtY(y);
        double u = loft.u(angleDeg, v);
        return Outline.band(new double[] {u, v - 9, u, v + 9}, 3.2, PartDesign.LOOP_SPACING_MM / 1.5);
    }

    private static double inside(Loft loft, double u, double v) {
        if (v < 0 || v > loft.length()) {
            return -1;
        }
        double angle = loft.angleDeg(u, v);
        double y = loft.at(u, v).y;
        double sides = (84 - Math.abs(angle)) * 0.8;
        // The elbow edge runs up on the outer side (u > 0), where the wing feathers end.
        double elbow = 100 + 0.16 * u - 0.0025 * u * u + 3.2 * StrictMath.cos(u / 7.4) - y;
        double wrist = y + 112 - 0.004 * u * u;
        return Sculpt.softMin(Sculpt.softMin(sides, elbow, 14), wrist, 14);
    }

    private static DetailLines lines(Loft loft, PlanarDomain domain) {
        DetailLines lines = new DetailLines(0.6);
        ScalarField clear = (u, v) -> domain.distanceToLoops(u, v) - 5.5;
        for (int vane = -2; vane <= 2; vane++) {
            double angle = 26.0 * vane;
            lines.addWhere(streak(loft, angle + 13, -100, angle + 13 + 5, 96), 1.4, 0.6, clear);
            lines.addWhere(streak(loft, angle, -96, angle + 4, 96), 1.4, -0.5, clear);
            for (int barb = 0; barb < 9; barb++) {
                double y = -86 + 20 * barb;
                lines.addWhere(streak(loft, angle + 2.5, y, angle + 9.5, y + 13), 0.9, 0.35, clear);
            }
        }
        return lines;
    }

    private static double[] streak(Loft loft, double fromDeg, double fromY, double toDeg, double toY) {
        int steps = 60;
        double[] path = new double[2 * (steps + 1)];
        for (int i = 0; i <= steps; i++) {
            double s = (double) i / steps;
            double v = loft.vAtY(fromY + (toY - fromY) * s);
            path[2 * i] = loft.u(fromDeg + (toDeg - fromDeg) * s, v);
            path[2 * i + 1] = v;
        }
        return path;
    }
}
