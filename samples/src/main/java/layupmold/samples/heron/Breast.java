package layupmold.samples.heron;

import java.util.List;
import layupmold.geometry.shape.Outline;
import layupmold.geometry.shape.PlanarDomain;
import layupmold.geometry.shape.ScalarField;
import org.joml.Vector3d;

/** The breast shell: keeled, scooped out for neck and arms, feathered all over. */
final class Breast {

    /** y, centre height, half width, half height, keel. */
    private static final double[][] SECTIONS = {
        {-250, -20, 80, 40, 0}, {-225, -12, 96, 58, 1}, {-200, -6, 110, 74, 2}, {-175, -2, 122, 86, 3},
        {-150, 0, 132, 95, 5}, {-125, 0, 140, 101, 7}, {-100, 0, 146, 105, 9}, {-75, 0, 151, 107, 10},
        {-50, 0, 154, 108, 11}, {-25, 0, 156, 108, 11}, {0, 0, 157, 107, 11}, {25, 0, 157, 105, 10},
        {50, 0, 156, 102, 8}, {75, 0, 154, 98, 6}, {100, 0, 151, 93, 4}, {125, 0, 147, 87, 2}, {150, 0, 142, 80, 1},
        {175, 0, 136, 73, 0}, {200, 0, 130, 66, 0}};

    private Breast() {
    }

    static PartDesign design() {
        Loft loft = new Loft(SECTIONS);
        double middle = loft.vAtY(-20);
        double[] perimeter = Outline.starShaped(0, middle, 330, (u, v) -> inside(loft, u, v), 2.6);
        PlanarDomain domain = new PlanarDomain(perimeter, List.of());
        DetailLines lines = new DetailLines(0.7);
        ScalarField plumage = (u, v) -> domain.distanceToLoops(u, v) - 8;
        Feathers.rows(lines, 50, 46, 1.9, plumage, new double[] {-200, loft.vAtY(-200), 200, loft.vAtY(170)});
        ScalarField wall = (u, v) -> 2.8 + 0.7 * StrictMath.sin(u / 41) * StrictMath.sin(v / 57);
        return new PartDesign(loft, domain, lines, wall, ScalarField.constant(6));
    }

    private static double inside(Loft loft, double u, double v) {
        if (v < 0 || v > loft.length()) {
            return -1;
        }
        Vector3d p = loft.at(u, v);
        double sides = (76 - Math.abs(loft.angleDeg(u, v))) * 2;
        double neck = StrictMath.hypot(p.x, p.y - 208) - 84;
        double arm = StrictMath.hypot(Math.abs(p.x) - 205, p.y - 112) - 92;
        double top = 168 - p.y;
        double hem = p.y + 190 - 34 * StrictMath.pow(p.x / 110, 2);
        double edge = Sculpt.softMin(sides, arm, 30);
        edge = Sculpt.softMin(edge, neck, 24);
        edge = Sculpt.softMin(edge, top, 24);
        return Sculpt.softMin(edge, hem, 40);
    }
}
