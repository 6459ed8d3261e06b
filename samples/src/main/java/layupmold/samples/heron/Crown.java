package layupmold.samples.heron;

import java.util.List;
import layupmold.geometry.shape.Outline;
import layupmold.geometry.shape.PlanarDomain;
import layupmold.geometry.shape.ScalarField;
import layupmold.geometry.shape.Surface;
import org.joml.Vector3d;

/** The skull cap with a swept-back crest and two slots for loose plumes. Its nape closes in under the equator. */
final class Crown {

    private Crown() {
    }

    static PartDesign design() {
        ScaledBall ball = ScaledBall.of(80, 0.98, 1.22, 0.95);
        double[] crest = {0, 70, 0, -92};
        Surface surface = Sculpt.of(ball, (u, v) -> {
            double rise = Sculpt.smoothStep(75, -70, v) * Sculpt.smoothStep(-118, -72, v);
            return Sculpt.along(crest, 1, 15).at(u, v) * (2 + 9 * rise);
        });
        double[] perimeter = Outline.starShaped(0, 0, 170, (u, v) -> {
            Vector3d p = ball.at(u, v);
            // Brow at +10 in front, down to −24 at the nape: below the ball's equator.
            double floor = -7 + 17 * StrictMath.tanh(p.y / 45) + 7 * StrictMath.exp(-p.y * p.y / 500);
            return p.z - floor;
        }, PartDesign.LOOP_SPACING_MM);
        double[] slotLeft = Outline.band(new double[] {-30, -52, -23, -76}, 3.4, PartDesign.LOOP_SPACING_MM / 1.5);
        double[] slotRight = Outline.band(new double[] {30, -52, 23, -76}, 3.4, PartDesign.LOOP_SPACING_MM / 1.5);
        PlanarDomain domain = new PlanarDomain(perimeter, List.of(slotLeft, slotRight));
        ScalarField wall = (u, v) -> 2.3 + 0.6 * StrictMath.sin(v / 29) * StrictMath.cos(u / 37);
        return new PartDesign(surface, domain, lines(domain), wall, ScalarField.constant(5));
    }

    /** Long plumes that run back from the brow and draw together over the nape. */
    private static DetailLines lines(PlanarDomain domain) {
        DetailLines lines = new DetailLines(0.5);
        ScalarField clear = (u, v) -> domain.distanceToLoops(u, v) - 6;
        for (int side = -1; side <= 1; side += 2) {
            for (int plume = 0; plume < 4; plume++) {
                lines.addWhere(plume(side, 0.21 + 0.24 * plume), 1.4, 0.6, clear);
                lines.addWhere(plume(side, 0.33 + 0.24 * plume), 1.2, -0.4, clear);
            }
        }
        Feathers.rows(lines, 15, 15, 1.8, (u, v) -> Math.min(Math.min(16.5 - Math.abs(u), v + 78),
                domain.distanceToLoops(u, v) - 6), new double[] {-16, -80, 16, 96});
        return lines;
    }

    /** A meridian of the ellipse between brow and nape, {@code share} of the way from the crest to its side. */
    private static double[] plume(int side, double share) {
        int steps = 60;
        double[] path = new double[2 * (steps + 1)];
        for (int i = 0; i <= steps; i++) {
            double angle = Math.toRadians(22 + 136.0 * i / steps);
            path[2 * i] = side * share * 104 * StrictMath.sin(angle);
            path[2 * i + 1] = 14 + 106 * StrictMath.cos(angle) - 22 * share;
        }
        return path;
    }
}
