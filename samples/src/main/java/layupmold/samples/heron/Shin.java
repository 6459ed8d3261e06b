package layupmold.samples.heron;

import java.util.List;
import layupmold.geometry.shape.Outline;
import layupmold.geometry.shape.PlanarDomain;
import layupmold.geometry.shape.ScalarField;
import layupmold.geometry.shape.Surface;

/** The left shin shell: knee to ankle, scaled like a wader's leg, with a shin ridge and four strap slots. */
final class Shin {

    private static final double HALF_LENGTH = 200;

    private Shin() {
    }

    static PartDesign design() {
        Loft loft = new Loft(sections());
        Surface surface = Sculpt.of(loft, Sculpt.at(0, loft.vAtY(160), 7, 30, 26)
                .plus(Sculpt.at(24, loft.vAtY(60), 3, 20, 70)));
        double[] perimeter = Outline.starShaped(0, loft.vAtY(0), 330, (u, v) -> inside(loft, u, v), 2.4);
        PlanarDomain domain = new PlanarDomain(perimeter,
                List.of(slot(loft, -60, 105), slot(loft, 60, 105), slot(loft, -60, -120), slot(loft, 60, -120)));
        ScalarField wall = (u, v) -> 2.6 + 0.7 * StrictMath.sin(v / 47) * StrictMath.cos(u / 39);
        return new PartDesign(surface, domain, lines(loft, domain), wall, (u, v) -> 1.6 + 0.055 * loft.radiusAt(v));
    }

    private static double[][] sections() {
        double[][] rows = new double[24][];
        for (int i = 0; i < rows.length; i++) {
            double y = -230 + 20.0 * i;
            double calf = StrictMath.exp(-StrictMath.pow((y - 60) / 110, 2));
            double knee = StrictMath.exp(-StrictMath.pow((y - 190) / 60, 2));
            double foot = StrictMath.exp(-StrictMath.pow((y + 225) / 60, 2));
            rows[i] = new double[] {y, 6 * knee + 8 * foot, 43 + 19 * calf + 12 * knee + 4 * foot,
                44 + 10 * calf + 8 * knee, 4 * StrictMath.exp(-StrictMath.pow(y / 130, 2))};
        }
        return rows;
    }

    private static double[] slot(Loft loft, double angleDeg, double y) {
        double v = loft.vAtY(y);
        double u = loft.u(angleDeg, v);
        return Outline.band(new double[] {u, v - 11, u, v + 11}, 3.6, PartDesign.LOOP_SPACING_MM / 1.5);
    }

    private static double inside(Loft loft, double u, double v) {
        if (v < 0 || v > loft.length()) {
            return -1;
        }
        double y = loft.at(u, v).y;
        double sides = 84 - Math.abs(loft.angleDeg(u, v));
        double knee = HALF_LENGTH - 0.0052 * u * u - y;
        double ankle = y + HALF_LENGTH - 0.009 * u * u;
        return Sculpt.softMin(Sculpt.softMin(sides, knee, 22), ankle, 22);
    }

    private static DetailLines lines(Loft loft, PlanarDomain domain) {
        DetailLines lines = new DetailLines(0.7);
        ScalarField clear = (u, v) -> domain.distanceToLoops(u, v) - 6;
        // Broad scutes down the front, as on a wader's leg.
        for (int scute = 0; scute < 13; scute++) {
            double y = 128 - 23.5 * scute;
            double[] path = new double[2 * 31];
            for (int i = 0; i <= 30; i++) {
                double angle = -34 + 68.0 * i / 30;
                double v = loft.vAtY(y - 8 * StrictMath.cos(Math.toRadians(angle * 2.4)));
                path[2 * i] = loft.u(angle, v);
                path[2 * i + 1] = v;
            }
            lines.addWhere(path, 1.5, 0.6, clear);
        }
        for (int side = -1; side <= 1; side += 2) {
            lines.addWhere(streak(loft, side * 40, -176, side * 40, 140), 1.5, 0.6, clear);
            lines.addWhere(streak(loft, side * 47, -170, side * 47, 146), 1.3, -0.5, clear);
        }
        double[] kneeRing = new double[2 * 61];
        for (int i = 0; i <= 60; i++) {
            double angle = 2 * Math.PI * i / 60;
            kneeRing[2 * i] = 33 * StrictMath.cos(angle);
            kneeRing[2 * i + 1] = loft.vAtY(161) + 22 * StrictMath.sin(angle);
        }
        lines.addWhere(kneeRing, 1.5, -0.6, clear);
        return lines;
    }

    private static double[] streak(Loft loft, double fromDeg, double fromY, double toDeg, double toY) {
        int steps = 80;
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
