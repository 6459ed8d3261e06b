package layupmold.samples.heron;

import java.util.List;
import layupmold.geometry.shape.Outline;
import layupmold.geometry.shape.PlanarDomain;
import layupmold.geometry.shape.ScalarField;
import layupmold.geometry.shape.Surface;
import org.joml.Vector3d;

/** The left shoulder plate: a leaf-shaped dome with a strap slot, three tiers of feathers and a scalloped hem. */
final class Shoulder {

    private static final double TIER_MM = 46;

    private Shoulder() {
    }

    static PartDesign design() {
        ScaledBall ball = ScaledBall.of(92, 0.92, 1.08, 0.8);
        Surface surface = Sculpt.of(ball, (u, v) -> {
            // Each tier lies a little proud of the one below it.
            double tier = (58 - v + 0.004 * u * u) / TIER_MM;
            double within = tier - Math.floor(tier);
            return tier < 0 || tier > 3 ? 0 : 2.2 * within * Sculpt.smoothStep(1, 0.72, within)
                    * Sculpt.smoothStep(0, 0.4, tier);
        });
        double[] perimeter = Outline.starShaped(0, -8, 150, (u, v) -> {
            Vector3d p = ball.at(u, v);
            double floor = p.z - 9;
            double hem = v + 104 - 0.006 * u * u - 2.5 * StrictMath.cos(u / 8.5);
            double neck = 86 - 0.35 * u - v;
            return Sculpt.softMin(Sculpt.softMin(floor, hem, 12), neck, 26);
        }, PartDesign.LOOP_SPACING_MM);
        double[] slot = Outline.band(new double[] {-12, 66, 16, 58}, 3.6, PartDesign.LOOP_SPACING_MM / 1.5);
        PlanarDomain domain = new PlanarDomain(perimeter, List.of(slot));
        return new PartDesign(surface, domain, lines(domain), (u, v) -> 2.5 + 0.6 * StrictMath.sin(u / 23 + v / 31),
                ScalarField.constant(5));
    }

    private static DetailLines lines(PlanarDomain domain) {
        DetailLines lines = new DetailLines(0.5);
        ScalarField clear = (u, v) -> domain.distanceToLoops(u, v) - 6;
        Feathers.rows(lines, 26, TIER_MM / 2, 1.7, (u, v) -> Math.min(clear.at(u, v), 62 - v),
                new double[] {-110, -120, 110, 74});
        double[] collar = new double[2 * 41];
        for (int i = 0; i <= 40; i++) {
            double u = -80 + 4.0 * i;
            collar[2 * i] = u;
            collar[2 * i + 1] = 76 - 0.35 * u - 0.002 * u * u;
        }
        lines.addWhere(collar, 1.5, -0.6, clear);
        return lines;
    }
}
