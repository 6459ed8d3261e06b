package layupmold.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.Stream;
import layupmold.geometry.body.BodyParts;
import layupmold.geometry.body.MoldSolid;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.inspect.CopiedSurface;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.offset.KnownMiss;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.testparts.RandomSheets;
import org.joml.Vector3d;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** A sound mold, spoilt in one known place. */
class FinishedMoldTest {

    private static final Recipe RECIPE = Recipe.defaults().withPull(new Vector3d(0, 0, 1));
    private static final double SPOILT_MM = 0.05;

    private static MoldOutcome.Mold sound;

    @BeforeAll
    static void make() {
        sound = (MoldOutcome.Mold) MoldPipeline.make(
                new PartFile(RandomSheets.sheet(6), "ply", null, List.of()), RECIPE, Progress.SILENT);
    }

    @Test
    void aToolThatKeepsItsOffsetPasses() {
        FinishedMold measured = measure(sound.solid(), RECIPE);
        assertEquals(List.of(), measured.failures());
        assertTrue(offTarget(measured).findAny().isEmpty());
    }

    @Test
    void oneVertexFartherOffThanAllowedFailsWithItsPlace() {
        int vertex = toolVertex();
        FinishedMold measured = measure(spoilt(vertex), RECIPE);
        Finding failure = measured.failures().get(0);
        assertEquals("tool-off-target", failure.code());
        assertEquals(SPOILT_MM, failure.figure(), 0.015);
        Vector3d place = new Vector3d(failure.place().x(), failure.place().y(), failure.place().z());
        assertEquals(0, place.distance(sound.solid().vertex(vertex)), 1, "named where it is");
        assertTrue(failure.advice().contains("inspect.toolToleranceMm"));
    }

    @Test
    void aRecipeThatAllowsMoreGetsAWarning() {
        FinishedMold measured = measure(spoilt(toolVertex()), RECIPE.withInspect(RECIPE.inspect().withToolTolerance(0.1)));
        assertEquals(List.of(), measured.failures());
        assertEquals(1, offTarget(measured).count());
    }

    @Test
    void aPlaceKnownToBeOffFailsThoughItIsTooSmallToBeSampled() {
        Place place = new Place(1, 2, 3, -1);
        Finding failure = measure(sound.solid(), new KnownMiss(SPOILT_MM, place), RECIPE).failures().get(0);
        assertEquals("tool-off-target", failure.code());
        assertEquals(SPOILT_MM, failure.figure());
        assertEquals(place, failure.place());
    }

    @Test
    void aBorderNarrowerThanAskedFailsWithItsPlace() {
        FlangeSpec asked = RECIPE.flange();
        FlangeSpec wider = new FlangeSpec(asked.widthMm() + 1, asked.draftDeg(), asked.riseMm(), asked.edgeRadiusMm(),
                asked.trimLineDepthMm());
        Finding failure = measure(sound.solid(), RECIPE.withFlange(wider)).failures().get(0);
        assertEquals("flange-too-narrow", failure.code());
        assertEquals(asked.widthMm(), failure.figure(), 0.5);
        assertEquals(sound.report().flange().planeZMm(), failure.place().z(), 1e-3);
    }

    private static Stream<Finding> offTarget(FinishedMold measured) {
        return measured.findings().stream().filter(f -> f.code().equals("tool-off-target"));
    }

    private static FinishedMold measure(TriangleMesh solid, Recipe recipe) {
        return measure(solid, KnownMiss.NONE, recipe);
    }

    private static FinishedMold measure(TriangleMesh solid, KnownMiss known, Recipe recipe) {
        MoldSolid mold = new MoldSolid(solid, sound.regions(), sound.partToMold(), new BodyParts(0, 0, 0, 90, sound.solid().volume()), List.of());
        return FinishedMold.measure(
                mold, CopiedSurface.of(sound.workpiece().face()), sound.report().offset().signedMm(), known, recipe);
    }

    /** The mold with one vertex lower than it is. */
    private static TriangleMesh spoilt(int vertex) {
        double[] xyz = sound.solid().xyz().clone();
        xyz[3 * vertex + 2] -= SPOILT_MM;
        return new TriangleMesh(xyz, sound.solid().triangles());
    }

    /** The vertex of the largest level tool triangle: far from creases and from the perimeter. */
    private static int toolVertex() {
        int best = -1;
        double largest = 0;
        for (int t = 0; t < sound.solid().triangleCount(); t++) {
            Vector3d n = sound.solid().areaNormal(t);
            double area = n.length();
            if (sound.regions()[t] == MoldRegion.TOOL.ordinal() && n.z > 0.95 * area && area > largest) {
                largest = area;
                best = sound.solid().triangles()[3 * t];
            }
        }
        return best;
    }
}
