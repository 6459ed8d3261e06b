package layupmold.geometry.body;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.check.MoldCheck;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.BodySpec;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.shapes.Shapes;
import org.junit.jupiter.api.Test;

class BlockMoldTest {

    private static final BodySpec BLOCK = new BodySpec(BodySpec.Kind.BLOCK, 4);

    /**
     * A bowl's mold is a solid of revolution; its volume is the cylinder of the outline less the cap (πh²(3R − h)/3)
     * and less the frustums of skirt and wall. Closed forms: Bronshtein et al., Handbook of Mathematics, from memory.
     */
    @Test
    void bowlMoldHasTheVolumeOfTheSolidOfRevolution() {
        double radius = 50;
        double theta = Math.toRadians(70);
        FlangeSpec spec = new FlangeSpec(20, 5, 6, 0, 0.3);
        MoldSolid mold = mold(Shapes.bowl(radius, 70, 120, 720), Tool.FEMALE, spec);

        double capHeight = radius * (1 - Math.cos(theta));
        double rim = radius * Math.sin(theta);
        // The groove, 0.3 mm deep and 0.9 wide, turns by atan(0.6 / 0.9) to either side of the bowl's 70°, but no
        // steeper than 85°; then the bowl goes on for 0.5 mm.
        double side = Math.hypot(0.3, 0.45);
        double turn = Math.atan2(0.3, 0.45);
        double grooveRun = side * Math.cos(theta - turn);
        double grooveRise = side * Math.sin(theta - turn);
        double skirtRun = grooveRun + side * Math.cos(Math.toRadians(85)) + 0.5 * Math.cos(theta);
        double skirtRise = grooveRise + side * Math.sin(Math.toRadians(85)) + 0.5 * Math.sin(theta);
        double skirt = rim + skirtRun;
        double wallTop = skirt + 6 * Math.tan(Math.toRadians(5));
        // Corners that rings may lose are allowed for.
        double outline = wallTop + 20 + 0.02;
        double height = 4 + capHeight + skirtRise + 6;
        double cap = Math.PI * capHeight * capHeight * (3 * radius - capHeight) / 3;
        double backRun = rim + grooveRun + side * Math.cos(Math.toRadians(85));
        double open = frustum(rim, rim + grooveRun, grooveRise)
                + frustum(rim + grooveRun, backRun, side * Math.sin(Math.toRadians(85)))
                + frustum(backRun, skirt, 0.5 * Math.sin(theta)) + frustum(skirt, wallTop, 6);
        double expected = Math.PI * outline * outline * height - cap - open;
        assertEquals(expected, mold.mesh().volume(), 1e-3 * expected);
        assertEquals(height, mold.mesh().bounds()[5], 0.01);
        assertEquals(0, mold.mesh().bounds()[2]);
    }

    private static double frustum(double lower, double upper, double height) {
        return Math.PI * height / 3 * (lower * lower + lower * upper + upper * upper);
    }

    @Test
    void roundedEdgeTakesTheRingBetweenSquareAndQuarterCircleAway() {
        FlangeSpec square = new FlangeSpec(20, 0.5, 8, 0, 0);
        FlangeSpec round = new FlangeSpec(20, 0.5, 8, 3, 0);
        TriangleMesh bowl = Shapes.bowl(50, 60, 60, 360);
        double expected = mold(bowl, Tool.FEMALE, square).mesh().volume();
        double actual = mold(bowl, Tool.FEMALE, round).mesh().volume();
        // Cross-section lost at a right angle: r² (1 − π/4); the wider outline adds a cylinder. Pappus: times 2πR.
        double rim = 50 * Math.sin(Math.toRadians(60));
        double height = 4 + 25 + 8;
        double lost = 9 * (1 - Math.PI / 4) * 2 * Math.PI * (rim + 1);
        double grown = Math.PI * height * (Math.pow(rim + 3 + 20, 2) - Math.pow(rim + 20, 2));
        assertEquals(expected - lost + grown, actual, 0.005 * expected);
    }

    @Test
    void aPlugStandsOnItsBorderAndPassesTheChecks() {
        TriangleMesh bowl = Shapes.bowl(50, 70, 60, 360);
        double[] dome = bowl.xyz().clone();
        for (int i = 2; i < dome.length; i += 3) {
            dome[i] = -dome[i];
        }
        TriangleMesh plug = new TriangleMesh(dome, bowl.triangles());
        MoldSolid mold = mold(plug, Tool.MALE, FlangeSpec.defaults());
        double capHeight = 50 * (1 - Math.cos(Math.toRadians(70)));
        // Ridge of the trim line and half a millimetre of skirt, before the rise: their section is the bowl's above.
        double side = Math.hypot(0.3, 0.45);
        double skirt = side * Math.sin(Math.toRadians(70) - Math.atan2(0.3, 0.45))
                + side * Math.sin(Math.toRadians(85)) + 0.5 * Math.sin(Math.toRadians(70));
        assertEquals(capHeight + skirt + 3 + 4, mold.mesh().bounds()[5], 0.01);
    }

    @Test
    void aBowlPastItsEquatorStillMakesASoundBlockWithWallAroundTheBulge() {
        MoldSolid mold = mold(Shapes.bowl(50, 120, 100, 360), Tool.FEMALE, new FlangeSpec(2, 3, 1, 1, 0.2));
        double[] box = mold.mesh().bounds();
        assertTrue(box[3] - box[0] >= 2 * (50 + 4) - 0.02, "wall beside the equator: " + (box[3] - box[0]));
    }

    @Test
    void aPerimeterThatCrossesItselfInPlanIsRefusedWithThePlace() {
        TriangleMesh sheet = Shapes.sheet(40, 4);
        double[] xyz = sheet.xyz().clone();
        xyz[0] = 45;
        xyz[1] = 46;
        TriangleMesh folded = new TriangleMesh(xyz, sheet.triangles());
        Rejection rejection = assertThrows(Rejection.class, () -> mold(folded, Tool.FEMALE, FlangeSpec.defaults()));
        assertEquals("perimeter-crosses-itself", rejection.finding().code());
        assertTrue(rejection.finding().place() != null);
    }

    @Test
    void crescentPerimetersMergeTheirFlanges() {
        MoldSolid mold = mold(crescent(60, 25, 200), Tool.FEMALE, new FlangeSpec(30, 5, 3, 2, 0.3));
        assertTrue(mold.mesh().volume() > 0);
    }

    /** A flat C of outer radius {@code outer} whose gap is narrower than two flanges. */
    private static TriangleMesh crescent(double outer, double width, int steps) {
        double[] xyz = new double[6 * (steps + 1)];
        int[] triangles = new int[6 * steps];
        for (int i = 0; i <= steps; i++) {
            double angle = Math.toRadians(20 + 320.0 * i / steps);
            for (int k = 0; k < 2; k++) {
                double r = outer - k * width;
                xyz[6 * i + 3 * k] = r * Math.cos(angle);
                xyz[6 * i + 3 * k + 1] = r * Math.sin(angle);
                xyz[6 * i + 3 * k + 2] = 5 * Math.sin(3 * angle);
            }
            if (i < steps) {
                int[] quad = {2 * i, 2 * i + 2, 2 * i + 3, 2 * i, 2 * i + 3, 2 * i + 1};
                System.arraycopy(quad, 0, triangles, 6 * i, 6);
            }
        }
        return new TriangleMesh(xyz, triangles);
    }

    private static MoldSolid mold(TriangleMesh given, Tool side, FlangeSpec spec) {
        MoldSolid solid = Molds.make(given, side, spec, BLOCK);
        MoldCheck.Result checks = MoldCheck.check(solid.mesh(), solid.regions(), EdgeTopology.of(solid.mesh()),
                TriangleBvh.of(solid.mesh()));
        assertEquals(List.of(), checks.findings());
        assertTrue(checks.figures().passed());
        return solid;
    }
}
