package layupmold.geometry.drape;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import layupmold.geometry.RigidTransform;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.recipe.Weave;
import layupmold.geometry.shapes.Shapes;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

/**
 * The net on a sphere against its closed form. With perpendicular great circles as generators the shear of a Chebyshev
 * net depends on z = uv/R² alone, u and v the arc lengths along the threads: from ω_uv = −K sin ω follows z γ″ + γ′ =
 * cos γ with γ(0) = 0 and γ′(0) = 1.
 */
class SphereNetTest {

    private static final double R = 100;

    /** Integrates the equation above by Runge and Kutta's fourth-order rule, from its series near 0. */
    static double shearDeg(double z) {
        double x = 1e-3;
        double g = x - x * x * x / 18;
        double p = 1 - x * x / 6;
        int steps = 2000;
        double h = (z - x) / steps;
        for (int n = 0; n < steps; n++) {
            double k1 = p;
            double l1 = (Math.cos(g) - p) / x;
            double k2 = p + h / 2 * l1;
            double l2 = (Math.cos(g + h / 2 * k1) - k2) / (x + h / 2);
            double k3 = p + h / 2 * l2;
            double l3 = (Math.cos(g + h / 2 * k2) - k3) / (x + h / 2);
            double k4 = p + h * l3;
            double l4 = (Math.cos(g + h * k3) - k4) / (x + h);
            g += h / 6 * (k1 + 2 * k2 + 2 * k3 + k4);
            p += h / 6 * (l1 + 2 * l2 + 2 * l3 + l4);
            x += h;
        }
        return Math.toDegrees(g);
    }

    private static DrapeNet net(double step, int cells) {
        ToolSheet sheet = ToolSheet.of(Sheets.sphere(R, 85, cells));
        StartSearch.Start start = StartSearch.at(sheet, new Vector3d(0, 0, R));
        return NetGrowth.grow(sheet, start.triangle(), start.point(), new Vector3d(1, 0, 0), step, 60_000);
    }

    private static double worstError(DrapeNet net) {
        double worst = 0;
        int checked = 0;
        for (int node = 0; node < net.nodeCount(); node++) {
            double u = net.i(node) * net.stepMm();
            double v = net.j(node) * net.stepMm();
            boolean inner = net.isOnSheet(net.i(node), net.j(node)) && net.nodeAt(net.i(node) + 1, net.j(node)) >= 0
                    && net.nodeAt(net.i(node), net.j(node) + 1) >= 0;
            if (inner && u > 0 && v > 0 && u * v / R / R <= 1 && Math.max(u, v) < 1.3 * R) {
                checked++;
                worst = Math.max(worst, Math.abs(net.nodeShearDeg(node) - shearDeg(u * v / R / R)));
            }
        }
        assertTrue(checked >= 20, "only " + checked + " nodes");
        return worst;
    }

    @Test
    void theEquationHasTheKnownValues() {
        assertEquals(5.726, shearDeg(0.10), 0.001);
        assertEquals(14.274, shearDeg(0.25), 0.001);
        assertEquals(28.257, shearDeg(0.50), 0.001);
        assertEquals(41.680, shearDeg(0.75), 0.001);
        assertEquals(54.318, shearDeg(1.00), 0.001);
    }

    @Test
    void shearConvergesToTheClosedForm() {
        double coarse = worstError(net(20, 400));
        double fine = worstError(net(4, 400));
        assertTrue(fine < 0.5 * coarse, coarse + " then " + fine);
        assertTrue(fine < 0.1, "worst error " + fine + " degrees");
    }

    @Test
    void everyLinkHasItsLengthAndEveryNodeLiesOnTheSheet() {
        ToolSheet sheet = ToolSheet.of(Sheets.sphere(R, 80, 120));
        StartSearch.Start start = StartSearch.at(sheet, new Vector3d(20, 10, 95));
        DrapeNet net = NetGrowth.grow(sheet, start.triangle(), start.point(), new Vector3d(1, 0.3, 0), 5, 60_000);
        NearestPoint nearest = new NearestPoint();
        int links = 0;
        for (int node = 0; node < net.nodeCount(); node++) {
            if (net.isOffSheet(node)) {
                continue;
            }
            sheet.bvh().nearest(net.xyz(node, 0), net.xyz(node, 1), net.xyz(node, 2), 10, nearest);
            assertTrue(nearest.distance() < 1e-8, "node off the sheet by " + nearest.distance());
            for (int[] d : new int[][] {{1, 0}, {0, 1}}) {
                int other = net.nodeAt(net.i(node) + d[0], net.j(node) + d[1]);
                if (other >= 0 && !net.isOffSheet(other)) {
                    // A link is 5 mm of great circle; its chord follows.
                    assertEquals(2 * R * Math.sin(2.5 / R), Math.sqrt(net.squareDistance(node, other)), 2e-3);
                    links++;
                }
            }
        }
        assertTrue(links > 3000, "only " + links);
    }

    /** A cap that plain cloth cannot follow and twill can: the most shear lies between their locking angles. */
    @Test
    void twillFollowsWherePlainWrinkles() {
        ToolSheet cap = ToolSheet.of(Sheets.sphere(R, 80, 150));
        DrapeSpec twill = new DrapeSpec(Weave.TWILL_2X2, 0, new Vector3d(0, 0, R), 0, 50, 0);
        DrapeSpec plain = new DrapeSpec(Weave.PLAIN, 0, new Vector3d(0, 0, R), 0, 40, 0);
        DrapedPly asTwill = Drape.ply(cap, twill, RigidTransform.identity());
        DrapedPly asPlain = Drape.ply(cap, plain, RigidTransform.identity());
        assertTrue(asTwill.figures().maxShearDeg() > 40 && asTwill.figures().maxShearDeg() < 50,
                "most shear " + asTwill.figures().maxShearDeg());
        assertEquals(0, asTwill.figures().lockedMm2());
        assertTrue(asPlain.inOnePiece().lockedMm2() > 0);
        assertEquals(4, asPlain.darts().size());
    }

    /** On a hemisphere the cloth covers all of it, and lying sheared it has the hemisphere's area, 2πR². */
    @Test
    void clothOnAHemisphereHasItsArea() {
        ToolSheet half = ToolSheet.of(Sheets.cut(Shapes.sphere(R, 80), p -> p.z > 0));
        DrapedPly ply = Drape.ply(half, new DrapeSpec(Weave.TWILL_2X2, 0, null, 2, 50, 0), RigidTransform.identity());
        assertEquals(0, ply.figures().uncoveredMm2());
        assertEquals(2 * Math.PI * R * R, ply.figures().drapedMm2(), 0.01 * 2 * Math.PI * R * R);
        assertTrue(ply.figures().flatMm2() > 1.05 * ply.figures().surfaceMm2());
    }
}
