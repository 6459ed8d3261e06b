package layupmold.samples.heron;

import java.util.List;
import layupmold.geometry.shape.Outline;
import layupmold.geometry.shape.PlanarDomain;
import layupmold.geometry.shape.ScalarField;
import layupmold.geometry.shape.Surface;
import org.joml.Vector3d;

/** The tail: seven feathers spread from a root with two bolt holes, each arched, the hem scalloped by their tips. */
final class TailFan {

    private static final int FEATHERS = 7;
    private static final double SPREAD_RAD = Math.toRadians(17.5);
    private static final double PIVOT_Y = -120;

    private TailFan() {
    }

    static PartDesign design() {
        Surface surface = (u, v) -> {
            double r = StrictMath.hypot(u, v - PIVOT_Y);
            double angle = StrictMath.atan2(u, v - PIVOT_Y);
            double arch = 4.2 * Sculpt.smoothStep(55, 190, r) * StrictMath.cos(2 * Math.PI * angle / SPREAD_RAD);
            return new Vector3d(u, v, 60 - r * r / 900 - 22 * angle * angle + arch);
        };
        double[] perimeter = Outline.starShaped(0, 10, 300, TailFan::inside, PartDesign.LOOP_SPACING_MM);
        List<double[]> holes = List.of(
                Outline.ellipse(-11, PIVOT_Y + 58, 4.2, 4.2, 0, 1.3),
                Outline.ellipse(11, PIVOT_Y + 58, 4.2, 4.2, 0, 1.3));
        PlanarDomain domain = new PlanarDomain(perimeter, holes);
        ScalarField wall = (u, v) -> 2.2 + 0.3 * StrictMath.sin(u / 27)
                + 1.2 * StrictMath.exp(-StrictMath.pow(StrictMath.hypot(u, v - PIVOT_Y) / 95, 2));
        return new PartDesign(surface, domain, lines(domain), wall, ScalarField.constant(4.2));
    }

    private static double inside(double u, double v) {
        double r = StrictMath.hypot(u, v - PIVOT_Y);
        double angle = StrictMath.atan2(u, v - PIVOT_Y);
        double tips = 214 + 9 * StrictMath.cos(2 * Math.PI * angle / SPREAD_RAD) - 26 * angle * angle - r;
        double flank = ((FEATHERS / 2.0) * SPREAD_RAD - Math.abs(angle)) * r;
        double root = r - 42;
        return Sculpt.softMin(Sculpt.softMin(tips, flank, 22), root, 22);
    }

    private static DetailLines lines(PlanarDomain domain) {
        DetailLines lines = new DetailLines(0.3);
        ScalarField clear = (u, v) -> domain.distanceToLoops(u, v) - 5.5;
        for (int feather = -3; feather <= 3; feather++) {
            double axis = feather * SPREAD_RAD;
            if (feather < 3) {
                lines.addWhere(ray(axis + SPREAD_RAD / 2, axis + SPREAD_RAD / 2, 66, 216), 1.5, 0.6, clear);
            }
            lines.addWhere(ray(axis, axis, 74, 206), 1.5, -0.6, clear);
            for (int barb = 0; barb < 5; barb++) {
                double from = 106 + 19 * barb;
                for (int side = -1; side <= 1; side += 2) {
                    lines.addWhere(ray(axis + side * 3.2 / from, axis + side * 0.37 * SPREAD_RAD, from, from + 14), 0.9,
                            0.35, clear);
                }
            }
        }
        return lines;
    }

    private static double[] ray(double fromAngle, double toAngle, double from, double to) {
        int steps = 40;
        double[] path = new double[2 * (steps + 1)];
        for (int i = 0; i <= steps; i++) {
            double s = (double) i / steps;
            double r = from + (to - from) * s;
            double angle = fromAngle + (toAngle - fromAngle) * Math.sqrt(s);
            path[2 * i] = r * StrictMath.sin(angle);
            path[2 * i + 1] = PIVOT_Y + r * StrictMath.cos(angle);
        }
        return path;
    }
}
