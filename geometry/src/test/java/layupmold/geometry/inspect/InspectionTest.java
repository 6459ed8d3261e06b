package layupmold.geometry.inspect;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.concurrent.ForkJoinPool;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.InspectSpec;
import layupmold.geometry.recipe.Layup;
import layupmold.geometry.recipe.Ply;
import layupmold.geometry.recipe.Printer;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.recipe.Weave;
import layupmold.geometry.shapes.Pick;
import layupmold.geometry.shapes.Revolved;
import org.joml.Matrix4d;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

class InspectionTest {

    private static final double R = 40;

    /** A round block with a spherical cavity, open at {@code rise} above its equator; the whole cavity is tool. */
    private static MeasuredSolid bowl(double rise, double outerRadius) {
        double openDeg = Math.toDegrees(Math.asin(rise / R));
        TriangleMesh mesh = new Revolved().to(0, 0).to(outerRadius, 0).to(outerRadius, 50 + rise)
                .arc(0, 50, R, openDeg, -90, 60).solid(120);
        return MeasuredSolid.of(mesh, Pick.regions(mesh, MoldRegion.TOOL, c -> c.distance(0, 0, 50) < R + 1e-9));
    }

    private static Inspection inspect(MeasuredSolid solid, Recipe recipe) {
        TriangleMesh face = Pick.triangles(solid.mesh(), c -> c.distance(0, 0, 50) < R + 1e-9).flipped();
        return Inspection.inspect(solid, CopiedSurface.of(face), 0, recipe);
    }

    private static List<String> codes(Inspection inspection) {
        return inspection.findings().stream().map(Finding::code).toList();
    }

    @Test
    void aBowlThatLeansEnoughLeavesNothingToSay() {
        TriangleMesh mesh = new Revolved().to(0, 0).to(60, 0).to(60, 40).arc(0, 50, R, -15, -90, 60).solid(120);
        MeasuredSolid solid = MeasuredSolid.of(mesh, Pick.regions(mesh, MoldRegion.TOOL,
                c -> c.distance(0, 0, 50) < R + 1e-9));
        assertEquals(List.of(), codes(inspect(solid, Recipe.defaults())));
    }

    @Test
    void aBowlPastItsEquatorIsLockedAndOverhangs() {
        Inspection inspection = inspect(bowl(10, 60), Recipe.defaults());
        assertEquals(List.of("part-locked"), codes(inspection));
        Finding locked = inspection.findings().get(0);
        assertEquals(R - Math.sqrt(R * R - 100), locked.figure(), 0.02);
        assertEquals(0.5, locked.limit());
        assertTrue(locked.advice().contains("Split the mold"), locked.advice());
        // The cavity's lip leans asin(10 / 40) = 14.5° over.
        assertEquals(List.of("part-locked", "overhang"), codes(inspect(bowl(10, 60), overhangs(10))));
    }

    private static Recipe overhangs(double limitDeg) {
        InspectSpec d = InspectSpec.defaults();
        return Recipe.defaults().withInspect(new InspectSpec(d.toolToleranceMm(), d.leastDraftDeg(), null, d.flexDepthMm(), null, limitDeg,
                d.layerMm(), d.wallLines(), d.infillShare(), d.speedMmPerS(), d.cureTemperatureC()));
    }

    @Test
    void aThinRimIsHeldAgainstTheRecipeOrTheMaterial() {
        MeasuredSolid rim = bowl(0, R + 1);
        assertTrue(codes(inspect(rim, Recipe.defaults())).contains("thin-wall"));
        Finding thin = inspect(rim, Recipe.defaults()).findings().get(0);
        // Three lines of 0.4 mm for PETG (material table).
        assertEquals(1.2, thin.limit(), 1e-12);
        assertEquals(1, thin.figure(), 0.05);
        assertEquals(1.6, Inspection.leastWallMm(Recipe.defaults().withPrinter(
                new Printer(256, 256, 256, 0.4, Printer.Material.ASA))), 1e-12);
        InspectSpec d = InspectSpec.defaults();
        Recipe lenient = Recipe.defaults().withInspect(new InspectSpec(d.toolToleranceMm(), d.leastDraftDeg(), 0.5, d.flexDepthMm(), null,
                d.overhangDeg(), d.layerMm(), d.wallLines(), d.infillShare(), d.speedMmPerS(), d.cureTemperatureC()));
        assertFalse(codes(inspect(rim, lenient)).contains("thin-wall"));
    }

    @Test
    void aWallNearUprightIsTold() {
        // The bowl's last facets lean 0.75° at its equator.
        List<Finding> findings = inspect(bowl(0, 60), Recipe.defaults()).findings();
        assertEquals("little-draft", findings.get(0).code());
        assertEquals(0.75, findings.get(0).figure(), 0.01);
        // A ring of 1.5° of a sphere: 2 π R² sin 1.5°.
        assertTrue(findings.get(0).message().startsWith("2.6 cm² of"), findings.get(0)::message);
    }

    /** A well 2 mm deep whose 120 sides lean 0.5°: 240 r sin 1.5° times the slant height. */
    @Test
    void smallAreasAreToldInSquareMillimetres() {
        double top = 5 + 2 * Math.tan(Math.toRadians(0.5));
        TriangleMesh mesh =
                new Revolved().to(0, 0).to(20, 0).to(20, 10).to(top, 10).to(5, 8).to(0, 8).solid(120);
        MeasuredSolid solid =
                MeasuredSolid.of(mesh, Pick.regions(mesh, MoldRegion.TOOL, c -> Math.hypot(c.x, c.y) < 5.1 && c.z > 1));
        TriangleMesh face = Pick.triangles(mesh, c -> Math.hypot(c.x, c.y) < 5.1 && c.z > 1).flipped();
        Finding little = Inspection.inspect(solid, CopiedSurface.of(face), 0, Recipe.defaults()).findings().stream()
                .filter(f -> f.code().equals("little-draft")).findFirst().orElseThrow();
        assertTrue(little.message().startsWith("62.9 mm² of"), little::message);
    }

    @Test
    void bedHeightHeatAndMaterialAreToldFromTheRecipe() {
        Recipe small = Recipe.defaults().withPrinter(new Printer(100, 100, 45, 0.4, Printer.Material.ABS))
                .withInspect(InspectSpec.defaults().withCureTemperature(95));
        List<String> codes = codes(inspect(bowl(0, 60), small));
        assertTrue(codes.containsAll(List.of("too-tall", "bed-too-small", "mold-softens", "material-cracks")),
                codes.toString());
    }

    @Test
    void aThickLaminateHeatsItself() {
        // 1000 g/m² cures to 1.43 mm a ply (formula in LaminateStack); three make 4.3 mm.
        Ply heavy = new Ply(Weave.TWILL_2X2, 1000, 1.78, 0);
        Recipe thick = Recipe.defaults().withLayup(new Layup(List.of(heavy, heavy, heavy), 0.5, 1.15, 0), 0.05);
        assertTrue(codes(inspect(bowl(0, 60), thick)).contains("exotherm"));
        assertFalse(codes(inspect(bowl(0, 60), Recipe.defaults())).contains("exotherm"));
    }

    @Test
    void anotherFrameMovesPlacesAndDirectionsAndNothingElse() {
        Inspection here = inspect(bowl(10, 60), Recipe.defaults());
        Isometry frame = new Isometry(new Matrix4d().translate(5, 6, 7).rotateXYZ(0.3, 0.4, 0.5));
        Inspection there = here.in(frame);
        assertEquals(here.wall().histogram(), there.wall().histogram());
        assertEquals(here.demold().undercutMm2(), there.demold().undercutMm2());
        Place before = here.demold().lockedRegions().get(0).at();
        Place after = there.demold().lockedRegions().get(0).at();
        assertEquals(frame.apply(before), after);
        assertEquals(after, there.findings().get(0).place());
        Vector3d pull = frame.applyToDirection(here.demold().otherPull().direction());
        assertEquals(0, pull.distance(there.demold().otherPull().direction()), 1e-12);
        assertEquals(0, frame.applyToDirection(here.demold().split().normal())
                .distance(there.demold().split().normal()), 1e-12);
        assertEquals(here.print().filament(), there.print().filament());
    }

    @Test
    void theInspectionDoesNotDependOnTheNumberOfThreads() throws Exception {
        MeasuredSolid solid = bowl(10, 42);
        Inspection[] found = new Inspection[2];
        for (int i = 0; i < 2; i++) {
            ForkJoinPool pool = new ForkJoinPool(i == 0 ? 1 : 5);
            found[i] = pool.submit(() -> inspect(solid, Recipe.defaults())).get();
            pool.shutdown();
        }
        assertEquals(found[0].wall(), found[1].wall());
        assertEquals(found[0].demold(), found[1].demold());
        assertEquals(found[0].deviation(), found[1].deviation());
        assertEquals(found[0].fabric(), found[1].fabric());
        assertEquals(found[0].print(), found[1].print());
        assertEquals(found[0].findings(), found[1].findings());
    }
}
