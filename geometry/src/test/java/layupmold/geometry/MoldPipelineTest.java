package layupmold.geometry;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.ForkJoinPool;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.flange.FlangeBuilder;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Hold;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.recipe.LengthUnit;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.testparts.BaseShape;
import layupmold.geometry.testparts.ClosedForms;
import layupmold.geometry.testparts.RandomShells;
import layupmold.geometry.testparts.ShellSpec;
import layupmold.geometry.testparts.TestPart;
import org.joml.Matrix4d;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

/** The whole way from part to checked mold, against closed forms. */
class MoldPipelineTest {

    /** Two plies of 210 g/m² carbon at half resin by mass: 0.602 mm (formula in LaminateStack); release 0.05 mm. */
    private static final double DEFAULT_OFFSET_MM = 0.6517;

    /**
     * Spherical cap: face area 2πR²(1 − cos θ), tool surface on the sphere of R + o, and the mold a solid of revolution:
     * cylinder less cap less frustum of the wall (Bronshtein et al., Handbook of Mathematics, from memory).
     */
    @Test
    void sphericalCapShellGivesTheSolidOfRevolution() {
        double radius = 60;
        double theta = Math.toRadians(75);
        TestPart part = ClosedForms.sphericalCap(radius, 75, 3, 720);
        Recipe recipe = Recipe.defaults().withPull(part.pull()).withFlange(new FlangeSpec(20, 5, 6, 0, 0));
        MoldOutcome.Mold mold = mold(part, recipe);

        double faceArea = 2 * Math.PI * radius * radius * (1 - Math.cos(theta));
        assertEquals(faceArea, mold.report().face().areaMm2(), 1e-3 * faceArea);
        assertEquals("closed-shell", mold.report().part().kind());
        double offset = mold.report().offset().signedMm();
        assertEquals(DEFAULT_OFFSET_MM, offset, 1e-3);

        double toolRadius = radius + offset;
        TriangleMesh solid = mold.solid();
        double lowest = 3;
        double centreZ = lowest + toolRadius;
        for (int t = 0; t < solid.triangleCount(); t++) {
            if (mold.regions()[t] == MoldRegion.TOOL.ordinal()) {
                for (int k = 0; k < 3; k++) {
                    Vector3d p = solid.corner(t, k);
                    assertEquals(toolRadius, Math.sqrt(p.x * p.x + p.y * p.y + (p.z - centreZ) * (p.z - centreZ)), 0.02);
                }
            }
        }
        // In section: the cap, a skirt that goes on at its slope, the wall at 85° and the level border, each moved by
        // the offset; where two meet the corner moves along the mitre.
        double plain = 1.1 * offset;
        double skirtR = radius * Math.sin(theta) + plain * Math.cos(theta);
        double skirtZ = -radius * Math.cos(theta) + plain * Math.sin(theta);
        double[][] section = {
            {toolRadius * Math.sin(theta), -toolRadius * Math.cos(theta)},
            mitred(skirtR, skirtZ, 75, 85, offset),
            mitred(skirtR + 6 * Math.tan(Math.toRadians(5)), skirtZ + 6, 85, 0, offset)};
        double outline = skirtR + 6 * Math.tan(Math.toRadians(5)) + 20 + offset * Math.tan(Math.toRadians(42.5))
                + FlangeBuilder.REBUILT_RIM_MM;
        double capHeight = toolRadius * (1 - Math.cos(theta));
        double open = Math.PI * capHeight * capHeight * (3 * toolRadius - capHeight) / 3;
        for (int i = 1; i < section.length; i++) {
            double r = section[i - 1][0];
            double s = section[i][0];
            open += Math.PI * (section[i][1] - section[i - 1][1]) / 3 * (r * r + r * s + s * s);
        }
        double expected = Math.PI * outline * outline * (lowest + toolRadius + section[2][1]) - open;
        assertEquals(expected, solid.volume(), 1e-3 * expected);
    }

    /** Where the corner (r, z) between lines of two elevations goes when both move outward and down by the offset. */
    private static double[] mitred(double r, double z, double firstDeg, double secondDeg, double offset) {
        double middle = Math.toRadians((firstDeg + secondDeg) / 2);
        double reach = offset / Math.cos(Math.toRadians(firstDeg - secondDeg) / 2);
        return new double[] {r + reach * Math.sin(middle), z - reach * Math.cos(middle)};
    }

    /** A seed is given in the posted mesh's unit: here a point of the inner wall, in centimetres. Area 2πr²(1 − cos 50°). */
    @Test
    void seedIsInThePostedUnit() {
        TestPart part = ClosedForms.sphericalCap(60, 50, 3, 90);
        double[] cm = Arrays.stream(part.mesh().xyz()).map(x -> x / 10).toArray();
        Vector3d pole = new Vector3d(part.pull()).mul(-5.72);
        Recipe recipe = Recipe.defaults().withPull(part.pull()).withKeep(new Keep.Seed(pole.x, pole.y, pole.z));
        MoldOutcome outcome = MoldPipeline.make(new PartFile(new TriangleMesh(cm, part.mesh().triangles()), "3mf",
                LengthUnit.CM, List.of()), recipe, Progress.SILENT);
        MoldOutcome.Mold mold = assertInstanceOf(MoldOutcome.Mold.class, outcome, outcome::toString);
        double inner = 2 * Math.PI * 57 * 57 * (1 - Math.cos(Math.toRadians(50)));
        assertEquals(inner, mold.report().face().areaMm2(), 0.005 * inner);
    }

    /** The offset of a cone's side is the parallel cone: every tool point on the side lies o off the side's line. */
    @Test
    void coneToolIsTheParallelCone() {
        TestPart part = ClosedForms.cone(50, 80, 2.5, 480);
        MoldOutcome.Mold mold = mold(part, Recipe.defaults().withPull(part.pull()));
        double slant = Math.hypot(50, 80);
        assertEquals(Math.PI * 50 * slant, mold.report().face().areaMm2(), 2e-3 * Math.PI * 50 * slant);
        assertTrue(mold.report().offset().maxDeviationMm() <= 0.02);
    }

    /**
     * A tray's floor and four walls move by the offset each: the cavity is the box larger by o on five sides. Upright
     * walls meet a flange of 5° draft, so that the corner between them moves down by o tan 2.5°.
     */
    @Test
    void trayCavityIsTheLargerBox() {
        TestPart part = ClosedForms.tray(90, 60, 30, 2, 5);
        MoldOutcome.Mold mold = mold(part, Recipe.defaults().withPull(part.pull())
                .withFlange(new FlangeSpec(20, 5, 4, 0, 0)));
        double[] box = {1e9, 1e9, 1e9, -1e9, -1e9, -1e9};
        for (int t = 0; t < mold.solid().triangleCount(); t++) {
            if (mold.regions()[t] == MoldRegion.TOOL.ordinal()) {
                for (int k = 0; k < 3; k++) {
                    for (int axis = 0; axis < 3; axis++) {
                        double value = mold.solid().corner(t, k).get(axis);
                        box[axis] = Math.min(box[axis], value);
                        box[3 + axis] = Math.max(box[3 + axis], value);
                    }
                }
            }
        }
        double[] sides = {box[3] - box[0], box[4] - box[1]};
        double offset = mold.report().offset().signedMm();
        assertEquals(90 + 2 * offset, Math.max(sides[0], sides[1]), 0.02);
        assertEquals(60 + 2 * offset, Math.min(sides[0], sides[1]), 0.02);
        assertEquals(30 + offset - offset * Math.tan(Math.toRadians(2.5)), box[5] - box[2], 0.02);
    }

    /** Its corners are copied crisp up to the trim line: every bit of the tool is level or upright. */
    @Test
    void aTrayOfFewTrianglesKeepsItsCornersCrisp() {
        TestPart part = ClosedForms.tray(90, 60, 30, 2, 5);
        MoldOutcome.Mold mold = mold(part, Recipe.defaults().withPull(part.pull()));
        for (int t = 0; t < mold.solid().triangleCount(); t++) {
            Vector3d n = mold.solid().areaNormal(t);
            if (mold.regions()[t] == MoldRegion.TOOL.ordinal() && n.length() > 1e-4) {
                double along = Math.max(Math.abs(n.x), Math.max(Math.abs(n.y), Math.abs(n.z))) / n.length();
                assertEquals(1, along, 1e-4, "at " + mold.solid().centroid(t));
            }
        }
        assertTrue(mold.report().offset().maxDeviationMm() < 0.003, "deviation " + mold.report().offset());
        assertTrue(mold.report().flange().leastDraftDeg() > 4.5, "draft " + mold.report().flange());
    }

    @Test
    void aPlugHoldingTheInnerFaceStandsBackByTheReleaseLayer() {
        TestPart part = ClosedForms.sphericalCap(60, 60, 3, 240);
        Recipe recipe = Recipe.defaults().withTool(Tool.MALE, Hold.INNER);
        MoldOutcome.Mold mold = mold(part, recipe);
        assertEquals(-0.05, mold.report().offset().signedMm(), 1e-9);
        double top = mold.solid().bounds()[5];
        // Cap height R(1 − cos θ); at 60° the trim line's ridge, 0.3 mm by 0.9, and half a millimetre of skirt; the
        // border 3 mm lower, and 3 mm of wall below that.
        double side = Math.hypot(0.3, 0.45);
        double turn = Math.atan2(0.3, 0.45);
        double skirt = side * Math.sin(Math.toRadians(60) - turn)
                + side * Math.sin(Math.min(Math.toRadians(60) + turn, Math.toRadians(85)))
                + 0.5 * Math.sin(Math.toRadians(60));
        assertEquals((60 - 0.05) * 0.5 + skirt + 3 + 3, top, 0.05);
    }

    @Test
    void roundRimsAndOpeningsMakeACheckedMoldWithWallBorderAndDraftAsAsked() {
        TestPart part = RandomShells.shell(ShellSpec.plain(BaseShape.DOME, 5).withOpenings(2));
        MoldOutcome.Mold mold = mold(part, Recipe.defaults());
        assertEquals(part.openings(), mold.report().face().openings());
        assertTrue(mold.report().body().leastWallMm() >= 3 - 0.01, "wall " + mold.report().body().leastWallMm());
        assertTrue(mold.report().flange().leastWidthMm() >= 20, "border " + mold.report().flange().leastWidthMm());
        assertTrue(mold.report().flange().leastDraftDeg() >= 4.9, "draft " + mold.report().flange().leastDraftDeg());
    }

    /** Grooves narrower than twice the offset fold the moved surface; the rebuilt one must not cross itself. */
    @Test
    void aNarrowGrooveIsRebuiltInsteadOfFolded() {
        TestPart part = ClosedForms.groovePlate(60, 40, 3, 0.8, 0.9, 2);
        MoldOutcome.Mold mold = mold(part, Recipe.defaults().withPull(part.pull()));
        assertTrue(mold.report().offset().method().contains("cut off"), mold.report().offset().method());
        assertEquals(0, SelfIntersections.find(mold.solid(), TriangleBvh.of(mold.solid()), 10).length);
        // Nothing of the tool may lie nearer to the face than the offset.
        double offset = mold.report().offset().signedMm();
        TriangleBvh face = TriangleBvh.of(mold.partToMold().apply(part.mesh()));
        NearestPoint nearest = new NearestPoint();
        for (int t = 0; t < mold.solid().triangleCount(); t++) {
            if (mold.regions()[t] == MoldRegion.TOOL.ordinal()) {
                Vector3d p = mold.solid().centroid(t);
                face.nearest(p.x, p.y, p.z, 10, nearest);
                assertTrue(nearest.distance() > offset - 0.02, "too near: " + nearest.distance() + " at " + p);
            }
        }
    }

    /** The costume's mask: detail lines narrower than twice the offset, two eyes, rounded rims. */
    @Test
    void theMaskGivesACheckedMold() throws Exception {
        Path file = Path.of("../samples/heron/mask.stl");
        MoldOutcome outcome = MoldPipeline.make(
                MeshReader.read(Files.readAllBytes(file), "mask.stl", MeshLimits.defaults()), Recipe.defaults(),
                Progress.SILENT);
        MoldOutcome.Mold mold = assertInstanceOf(MoldOutcome.Mold.class, outcome, outcome::toString);
        assertTrue(mold.report().checks().passed());
        assertEquals(2, mold.report().face().openings());
        assertTrue(mold.report().offset().p95DeviationMm() <= 0.01, mold.report().offset().toString());
        double[] xyz = mold.solid().xyz();
        assertTrue(Arrays.stream(xyz).allMatch(x -> x == (float) x), "files keep every coordinate");
    }

    @Test
    void sameBytesOnAnyNumberOfThreads() throws Exception {
        TestPart part = RandomShells.shell(ShellSpec.plain(BaseShape.WAVY, 3).withOpenings(1));
        List<MoldOutcome.Mold> molds = new ArrayList<>();
        for (int threads : new int[] {1, 4}) {
            ForkJoinPool pool = new ForkJoinPool(threads);
            molds.add(pool.submit(() -> mold(part, Recipe.defaults())).get());
            pool.shutdown();
        }
        assertArrayEquals(molds.get(0).solid().xyz(), molds.get(1).solid().xyz());
        assertArrayEquals(molds.get(0).solid().triangles(), molds.get(1).solid().triangles());
        assertArrayEquals(molds.get(0).regions(), molds.get(1).regions());
        assertEquals(molds.get(0).report(), molds.get(1).report());
    }

    @Test
    void anOpenSheetIsItsOwnFace() {
        TriangleMesh sheet = Shapes.bowl(30, 80, 30, 120).flipped();
        MoldOutcome.Mold mold = mold(sheet, Recipe.defaults().withPull(new Vector3d(0, 0, 1)));
        assertEquals("open-sheet", mold.report().part().kind());
        assertEquals(sheet.area(), mold.report().face().areaMm2(), 1e-6);
    }

    @Test
    void aPullThatCannotBeMeantIsRejectedWithAdvice() {
        TestPart part = RandomShells.shell(ShellSpec.plain(BaseShape.DOME, 2));
        TriangleMesh far = new RigidTransform(new Matrix4d().translation(5000, -3000, 800)).apply(part.mesh());
        MoldOutcome outcome = MoldPipeline.make(file(far),
                Recipe.defaults().withPull(new Vector3d(1, 0, 0)), Progress.SILENT);
        MoldOutcome.Rejected rejected = (MoldOutcome.Rejected) outcome;
        assertEquals("walls-not-told-apart", rejected.reason().code());
        assertTrue(rejected.reason().advice().contains("pull"), rejected.reason().advice());
        assertTrue(rejected.findings().contains(rejected.reason()));
    }

    private static MoldOutcome.Mold mold(TestPart part, Recipe recipe) {
        return mold(part.mesh(), recipe);
    }

    private static MoldOutcome.Mold mold(TriangleMesh part, Recipe recipe) {
        MoldOutcome outcome = MoldPipeline.make(file(part), recipe, Progress.SILENT);
        if (outcome instanceof MoldOutcome.Rejected rejected) {
            throw new AssertionError(rejected.reason().toString());
        }
        MoldOutcome.Mold mold = (MoldOutcome.Mold) outcome;
        assertTrue(EdgeTopology.of(mold.solid()).isClosedAndOriented());
        assertTrue(mold.report().checks().passed());
        assertEquals(0, mold.solid().bounds()[2]);
        return mold;
    }

    private static PartFile file(TriangleMesh mesh) {
        return new PartFile(mesh, "stl-binary", null, List.of());
    }
}
