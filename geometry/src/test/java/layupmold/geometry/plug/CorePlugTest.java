package layupmold.geometry.plug;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.Progress;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.drape.ToolSheet;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Severity;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Hold;
import layupmold.geometry.recipe.OpeningSpec;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.report.OpeningFigures;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Core plugs in whole molds, against closed forms (frustum and spherical cap: Bronshtein et al., from memory). */
class CorePlugTest {

    private static final double HEIGHT_MM = 4;
    private static final double DRAFT_DEG = 5;
    private static final double LAMINATE_MM = 0.602;
    private static final OpeningSpec PLUGS = 
            new OpeningSpec(OpeningSpec.Kind.CORE_PLUG, HEIGHT_MM, DRAFT_DEG, List.of());
    /** No trim line, so that capped molds differ by the islands alone. */
    private static final Recipe PLAIN = Recipe.defaults().withFlange(new FlangeSpec(20, 5, 6, 2, 0));

    /** On a flat plate the island is a frustum: foot as wide as the opening, since a plane's offset only shifts it. */
    @ParameterizedTest
    @EnumSource(Tool.class)
    void aPlatesRoundOpeningKeepsItsSizeUnderAFrustum(Tool tool) {
        double radius = 10;
        TriangleMesh plate = AnnularSheet.of(120, radius, 60, (r, a) -> 0);
        Recipe recipe = PLAIN.withPull(new Vector3d(0, 0, 1)).withTool(tool, Hold.INNER);
        MoldOutcome.Mold capped = mold(plate, recipe);
        MoldOutcome.Mold plugged = mold(plate, recipe.withOpenings(PLUGS));

        assertFootRadius(plugged, radius, 0.005);
        double rise = HEIGHT_MM + LAMINATE_MM;
        assertEquals(1, plugged.report().openings().plugged());
        assertEquals(0, plugged.report().openings().capped());
        assertEquals(rise, plugged.report().openings().leastPlugRiseMm(), 1e-3);
        assertTrue(plugged.report().openings().leastPlugDraftDeg() >= DRAFT_DEG - 0.01,
                "draft " + plugged.report().openings().leastPlugDraftDeg());
        double top = radius - rise * Math.tan(Math.toRadians(DRAFT_DEG));
        double frustum = Math.PI * rise / 3 * (radius * radius + radius * top + top * top);
        assertEquals(frustum, plugged.solid().volume() - capped.solid().volume(), 0.01 * frustum);
        assertNull(capped.report().openings().leastPlugRiseMm());
        assertEquals(1, capped.report().openings().capped());
    }

    /** In a dish's pole the island stands on the ring of R + o, and fills the cap below it too. */
    @Test
    void aDomesPoleOpeningKeepsItsRingOnTheOffsetSphere() {
        double radius = 60;
        double angle = Math.toRadians(15);
        TriangleMesh dome = AnnularSheet.dome(120, radius, 15, 70);
        Recipe recipe = PLAIN.withPull(new Vector3d(0, 0, -1));
        MoldOutcome.Mold capped = mold(dome, recipe);
        MoldOutcome.Mold plugged = mold(dome, recipe.withOpenings(PLUGS));
        double tool = radius + plugged.report().offset().signedMm();
        double foot = tool * Math.sin(angle);
        assertFootRadius(plugged, foot, 0.02);
        double rise = HEIGHT_MM + LAMINATE_MM;
        assertEquals(rise, plugged.report().openings().leastPlugRiseMm(), 0.01);
        assertTrue(plugged.report().openings().leastPlugDraftDeg() >= DRAFT_DEG - 0.01,
                "draft " + plugged.report().openings().leastPlugDraftDeg());
        double top = foot - rise * Math.tan(Math.toRadians(DRAFT_DEG));
        double sagitta = tool * (1 - Math.cos(angle));
        // Without the cap the lowest point is the ring, and the base comes up by the cap's height.
        double base = IntStream.range(0, plugged.regions().length)
                .filter(t -> plugged.regions()[t] == MoldRegion.BASE.ordinal())
                .mapToDouble(t -> plugged.solid().areaNormal(t).length() / 2).sum();
        double expected = Math.PI * rise / 3 * (foot * foot + foot * top + top * top)
                + Math.PI * sagitta * sagitta * (3 * tool - sagitta) / 3 - base * sagitta;
        assertEquals(expected, plugged.solid().volume() - capped.solid().volume(), 0.001 * capped.solid().volume());
        assertTrue(plugged.report().offset().maxDeviationMm() <= 0.02, plugged.report().offset().toString());
    }

    /** On a plate tilted against the pull the foot climbs; the top stays level and clears its highest point. */
    @Test
    void aClimbingFootGetsALevelTopAndMoreDraft() {
        double slope = Math.tan(Math.toRadians(35));
        TriangleMesh plate = AnnularSheet.of(120, 10, 60, (x, y) -> slope * x);
        MoldOutcome.Mold mold = mold(plate, PLAIN.withPull(new Vector3d(0, 0, 1)).withOpenings(PLUGS));
        assertEquals(HEIGHT_MM + LAMINATE_MM, mold.report().openings().leastPlugRiseMm(), 1e-3);
        assertTrue(mold.report().openings().leastPlugDraftDeg() >= DRAFT_DEG - 0.01,
                "draft " + mold.report().openings().leastPlugDraftDeg());
    }

    @Test
    void anOpeningTooNarrowForTheWallIsCappedAndSaid() {
        TriangleMesh plate = AnnularSheet.of(48, 0.3, 30, (x, y) -> 0);
        MoldOutcome.Mold mold = mold(plate, PLAIN.withPull(new Vector3d(0, 0, 1)).withOpenings(PLUGS));
        assertEquals(new OpeningFigures(1, 0, null, null), mold.report().openings());
        Finding said = mold.report().findings().stream().filter(f -> f.stage().equals("plug")).findFirst().orElseThrow();
        assertEquals("plug-too-narrow", said.code());
        assertEquals(Severity.WARNING, said.severity());
        assertEquals(0, Math.hypot(said.place().x(), said.place().y()), 0.1);
    }

    /** A cavity's lip that has turned along the pull, and one that leans 20° back: the foot is the edge's offset. */
    @ParameterizedTest
    @ValueSource(doubles = {0, 20})
    void aRoundedRimsPlugStandsOnTheOffsetOfItsEdge(double tiltDeg) {
        double radius = 10;
        double lip = 1.2;
        double tilt = Math.toRadians(tiltDeg);
        TriangleMesh plate = AnnularSheet.lipped(60, radius, 40, lip);
        MoldOutcome.Mold mold = mold(plate,
                PLAIN.withPull(new Vector3d(Math.sin(tilt), 0, Math.cos(tilt))).withOpenings(PLUGS));
        double offset = mold.report().offset().signedMm();
        // The lip's last facet has half of its turn to go.
        double lean = Math.PI / 4 / AnnularSheet.LIP_RINGS;
        Isometry toPart = mold.partToMold().inverse().isometry();
        for (int v : foot(mold)) {
            Vector3d p = toPart.apply(mold.solid().vertex(v));
            assertEquals(radius - offset * Math.cos(lean), Math.hypot(p.x, p.y), 0.02);
            assertEquals(lip - offset * Math.sin(lean), p.z, 0.01);
        }
        assertTrue(mold.report().openings().leastPlugDraftDeg() >= DRAFT_DEG - 0.01,
                "draft " + mold.report().openings().leastPlugDraftDeg());
        assertTrue(mold.report().offset().maxDeviationMm() <= 0.02, mold.report().offset()::toString);
        assertTrue(mold.report().findings().stream().noneMatch(f -> f.code().equals("plug-set-back")));
    }

    /** Tilted by 55° the rim's last five facets of eight hang over the tool, by 0.74 mm once offset. */
    @Test
    void aRimThatWouldLockThePartIsCutOffAndSaid() {
        double tilt = Math.toRadians(55);
        TriangleMesh plate = AnnularSheet.lipped(60, 10, 40, 1.2);
        MoldOutcome.Mold mold = mold(plate,
                PLAIN.withPull(new Vector3d(Math.sin(tilt), 0, Math.cos(tilt))).withOpenings(PLUGS));
        Finding said = mold.report().findings().stream()
                .filter(f -> f.code().equals("opening-edge-leans-back")).findFirst().orElseThrow();
        double step = Math.PI / 2 / AnnularSheet.LIP_RINGS;
        double depth = 1.2 * (Math.cos(5 * step - tilt) - Math.cos(tilt))
                + mold.report().offset().signedMm() * (Math.cos(4.5 * step - tilt) - Math.cos(tilt - step / 2));
        assertEquals(depth, said.figure(), 0.003);
        assertEquals(0.5, said.limit(), 1e-12);
        assertTrue(mold.report().findings().stream().noneMatch(f -> f.code().equals("part-locked")));
    }

    /** The mask's eyes have rounded rims, and the foot climbs by a centimetre. */
    @Test
    void openingsWithRoundedRimsArePluggedAndTheToolKeepsItsOffset() throws IOException {
        PartFile mask = MeshReader.read(
                Files.readAllBytes(Path.of("../samples/heron/mask.stl")), "mask.stl", MeshLimits.defaults());
        MoldOutcome outcome = MoldPipeline.make(mask, Recipe.defaults().withOpenings(PLUGS), Progress.SILENT);
        MoldOutcome.Mold mold = assertInstanceOf(MoldOutcome.Mold.class, outcome, outcome::toString);
        assertEquals(2, mold.report().openings().plugged());
        assertEquals(0, mold.report().openings().capped());
        assertTrue(mold.report().offset().maxDeviationMm() <= 0.02, mold.report().offset()::toString);
        assertTrue(mold.report().findings().stream().noneMatch(f -> f.code().equals("plug-set-back")));
        TriangleMesh face = mold.workpiece().face();
        TriangleBvh edge = openingEdges(face);
        NearestPoint nearest = new NearestPoint();
        for (int v : foot(mold)) {
            Vector3d p = mold.solid().vertex(v);
            edge.nearest(p.x, p.y, p.z, Double.POSITIVE_INFINITY, nearest);
            assertEquals(mold.report().offset().signedMm(), nearest.distance(), 0.02, p::toString);
        }
        for (Finding finding : mold.report().findings()) {
            assertTrue(finding.figure() == null || Double.isFinite(finding.figure()), finding::toString);
        }
    }

    /** The cloth ends at the plug: corners there are none of its own, and the kit cuts the opening out. */
    @Test
    void clothStopsAtThePlug() {
        double radius = 10;
        TriangleMesh plate = AnnularSheet.of(120, radius, 60, (x, y) -> 0);
        Recipe recipe = PLAIN.withPull(new Vector3d(0, 0, 1));
        MoldOutcome.Mold capped = mold(plate, recipe);
        MoldOutcome.Mold plugged = mold(plate, recipe.withOpenings(PLUGS));
        double opening = 60 * radius * radius * Math.sin(2 * Math.PI / 120);
        assertEquals(capped.report().fabric().clothMm2() - opening, plugged.report().fabric().clothMm2(), 0.1);
        assertEquals(capped.report().fabric().tightMm2(), plugged.report().fabric().tightMm2(), 3);
        ToolSheet sheet = ToolSheet.of(plugged);
        assertEquals(ToolSheet.of(capped).areaMm2(), sheet.areaMm2(), 0.1);
        assertEquals(sheet.areaMm2() - opening, sheet.trimmed().area(), 0.1);
    }

    private static void assertFootRadius(MoldOutcome.Mold mold, double radius, double tolerance) {
        int[] foot = foot(mold);
        for (int v : foot) {
            Vector3d p = mold.solid().vertex(v);
            assertEquals(radius, Math.hypot(p.x, p.y), tolerance);
        }
        assertEquals(120, foot.length);
    }

    /** Vertices at which plugs end, all of them on the tool. */
    private static int[] foot(MoldOutcome.Mold mold) {
        EdgeTopology topology = EdgeTopology.of(mold.solid());
        int plug = MoldRegion.PLUG.ordinal();
        int[] edge = IntStream.range(0, topology.halfEdgeCount())
                .filter(h -> mold.regions()[h / 3] == plug && mold.regions()[topology.twin(h) / 3] != plug).toArray();
        assertTrue(edge.length > 0);
        for (int h : edge) {
            assertEquals(MoldRegion.TOOL.ordinal(), mold.regions()[topology.twin(h) / 3]);
        }
        return Arrays.stream(edge).map(topology::from).toArray();
    }

    /** All boundaries of a face but the longest. */
    private static TriangleBvh openingEdges(TriangleMesh face) {
        EdgeTopology topology = EdgeTopology.of(face);
        int longest = topology.boundaryLoops().stream().mapToInt(loop -> loop.length).max().orElseThrow();
        return TriangleBvh.of(TriangleMesh.ofSegments(face.xyz(), topology.boundaryLoops().stream()
                .filter(loop -> loop.length < longest).flatMapToInt(Arrays::stream)
                .flatMap(h -> IntStream.of(topology.from(h), topology.to(h))).toArray()));
    }

    static MoldOutcome.Mold mold(TriangleMesh part, Recipe recipe) {
        MoldOutcome outcome = MoldPipeline.make(
                new PartFile(part, "stl-binary", null, List.of()), recipe, Progress.SILENT);
        MoldOutcome.Mold mold = assertInstanceOf(MoldOutcome.Mold.class, outcome, outcome::toString);
        assertTrue(mold.report().checks().passed());
        return mold;
    }
}
