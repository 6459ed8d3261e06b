package layupmold.geometry.inspect;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.ForkJoinPool;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.InspectSpec;
import layupmold.geometry.recipe.Layup;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.shapes.Pick;
import layupmold.geometry.shapes.Revolved;
import org.joml.Matrix4d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Discs with ring grooves: round ones have the radius they are turned with, square corners have none. */
class FabricFitTest {

    private static final double TOP = 20;

    /** A disc whose top has a ring groove of half-round section around radius 30. */
    private static TriangleMesh roundGroove(double radius, int steps, int segments) {
        return new Revolved().to(0, 0).to(50, 0).to(50, TOP).arc(30, TOP, radius, 0, -180, steps).to(0, TOP)
                .solid(segments);
    }

    /** A disc whose top has a trench 5 mm deep between radii 20 and 30. */
    private static TriangleMesh trench() {
        return new Revolved().to(0, 0).to(50, 0).to(50, TOP).to(30, TOP).to(30, TOP - 5).to(20, TOP - 5).to(20, TOP)
                .to(0, TOP).solid(240);
    }

    private static MeasuredSolid solid(TriangleMesh mesh, MoldRegion region) {
        return MeasuredSolid.of(mesh, Pick.regions(mesh, region, c -> c.z > 1 && Math.hypot(c.x, c.y) < 49.5));
    }

    private static FabricFigures measure(TriangleMesh mesh, double clothRadiusMm) {
        return FabricFit.measure(solid(mesh, MoldRegion.TOOL), cloth(clothRadiusMm)).figures();
    }

    private static Recipe cloth(double radiusMm) {
        return Recipe.defaults().withInspect(InspectSpec.defaults().withClothRadius(radiusMm));
    }

    @ParameterizedTest
    @CsvSource({"2, 30, 0.03", "2, 12, 0.1", "1, 30, 0.03", "3.5, 60, 0.02"})
    void aRoundGrooveHasItsRadius(double radius, int steps, double tolerance) {
        FabricFigures figures = measure(roundGroove(radius, steps, 180), 1);
        assertEquals(radius, figures.leastRadiusMm(), tolerance * radius);
        double off = Math.hypot(Math.hypot(figures.leastRadiusAt().x(), figures.leastRadiusAt().y()) - 30,
                figures.leastRadiusAt().z() - TOP);
        assertEquals(radius, off, 0.02 * radius, "found in the groove");
    }

    @Test
    void aGrooveWiderThanTheClothsRadiusIsFollowed() {
        FabricFigures figures = measure(roundGroove(2, 30, 180), 1.8);
        assertEquals(0, figures.tightMm2());
        assertTrue(figures.bridges().isEmpty());
    }

    /**
     * A ball of radius 3 over a half-round groove of radius 2 rests on its edges, its centre √(9 − 4) above them, and
     * touches nothing inside: the groove's area is π r · 2π R (Pappus), the gap at its bottom √5 + 2 − 3.
     */
    @Test
    void aTighterGrooveIsSpannedAndTheGapIsThatUnderABall() {
        FabricFigures figures = measure(roundGroove(2, 30, 180), 3);
        double area = Math.PI * 2 * 2 * Math.PI * 30;
        assertEquals(area, figures.tightMm2(), 0.02 * area);
        assertEquals(1, figures.bridges().size());
        Bridge bridge = figures.bridges().get(0);
        assertEquals(area, bridge.areaMm2(), 0.02 * area);
        assertEquals(2, bridge.radiusMm(), 0.06);
        assertEquals(Math.sqrt(5) - 1, bridge.gapMm(), 0.05);
    }

    /** A ball of radius ρ in a square corner touches both flanks ρ from the corner and stands (√2 − 1) ρ off it. */
    @Test
    void aSquareCornerIsSpannedByTheClothsRadiusOnBothFlanks() {
        FabricFigures figures = measure(trench(), 1);
        double inner = 2 * Math.PI * 20 + Math.PI * (21 * 21 - 20 * 20);
        double outer = 2 * Math.PI * 30 + Math.PI * (30 * 30 - 29 * 29);
        assertEquals(inner + outer, figures.tightMm2(), 0.03 * (inner + outer));
        assertEquals(2, figures.bridges().size());
        for (Bridge bridge : figures.bridges()) {
            boolean atInner = Math.hypot(bridge.at().x(), bridge.at().y()) < 25;
            assertEquals(atInner ? inner : outer, bridge.areaMm2(), 0.03 * outer);
            assertEquals(Math.sqrt(2) - 1, bridge.gapMm(), 0.03);
        }
        assertTrue(figures.leastRadiusMm() < 0.02, "a corner has no radius: " + figures.leastRadiusMm());
    }

    @Test
    void whatIsCutOutAfterDemoldingNeedNotBeFollowed() {
        FabricFigures figures = FabricFit.measure(solid(trench(), MoldRegion.CAP), cloth(1)).figures();
        assertTrue(figures.bridges().isEmpty());
        assertNull(figures.leastRadiusAt());
        assertEquals(figures.capMm(), figures.leastRadiusMm());
    }

    @Test
    void aSphericalHollowBendsBothWays() {
        TriangleMesh mesh = new Revolved().to(0, 0).to(50, 0).to(50, TOP).arc(0, TOP, 3.2, 0, -90, 24).solid(96);
        FabricFigures figures = measure(mesh, 1);
        // The last facet before the rim reads tighter, see RadiusProbe; hardly any area does.
        assertEquals(3.2, figures.leastRadiusMm(), 0.2 * 3.2);
        double hollow = 2 * Math.PI * 3.2 * 3.2;
        assertEquals(hollow, figures.histogram().areaMm2().get(31), 0.1 * hollow);
    }

    /** Default layup: 210 g/m² twill at 0.301 mm a ply (formula in LaminateStack) by 3 mm a mm from the weave table. */
    @Test
    void theClothsRadiusComesFromWeaveAndPlyUnlessAsked() {
        assertEquals(0.903, FabricFit.clothRadiusMm(Layup.defaults()), 2e-3);
        FabricFigures figures = FabricFit.measure(solid(trench(), MoldRegion.TOOL), Recipe.defaults()).figures();
        assertEquals(0.903, figures.clothRadiusMm(), 2e-3);
        assertEquals(1.5, measure(trench(), 1.5).clothRadiusMm());
    }

    /**
     * Release 0.05 mm and coat 0.1 mm close lines up to 0.3 mm wide. At an edge of 90°, sharp either way, a ball of
     * radius ρ touches each flank ρ away, so a strip that wide on both flanks of the trench's four edges is lost.
     */
    @Test
    void releaseLayerAndCoatBlurSharpEdgesBothWays() {
        FabricFigures figures = measure(trench(), 1);
        assertEquals(0.3, figures.lostDetailMm(), 1e-12);
        double strips = 2 * 0.15 * 2 * Math.PI * (20 + 20 + 30 + 30);
        assertEquals(strips, figures.lostDetailMm2(), 0.06 * strips);
        Layup bare = new Layup(Layup.defaults().plies(), 0.5, 1.15, 0);
        FabricFigures none = FabricFit.measure(solid(trench(), MoldRegion.TOOL), cloth(1).withLayup(bare, 0)).figures();
        assertEquals(0, none.lostDetailMm2());
        assertEquals(0, none.lostDetailMm());
    }

    /** Top of the disc without the trench, its floor and its two walls. */
    @Test
    void theClothsAreaIsThatOfTheSurfaceItTouches() {
        FabricFigures figures = measure(trench(), 1);
        double area = Math.PI * 2500 + 2 * Math.PI * 5 * (20 + 30);
        assertEquals(area, figures.clothMm2(), 1e-3 * area);
        assertEquals(area, figures.toolMm2(), 1e-3 * area);
        assertEquals(0, FabricFit.measure(solid(trench(), MoldRegion.WALL), cloth(1)).figures().toolMm2());
    }

    @Test
    void turningAndSplittingTheMeshChangesLittle() {
        FabricFigures plain = measure(roundGroove(2, 24, 180), 3);
        RigidTransform turn = new RigidTransform(new Matrix4d().rotateZ(0.7).translate(0.3, -0.2, 0));
        FabricFigures turned = measure(turn.apply(roundGroove(2, 24, 180)), 3);
        FabricFigures finer = measure(roundGroove(2, 40, 300), 3);
        assertEquals(plain.leastRadiusMm(), turned.leastRadiusMm(), 0.01);
        assertEquals(plain.tightMm2(), turned.tightMm2(), 0.01 * plain.tightMm2());
        assertEquals(plain.tightMm2(), finer.tightMm2(), 0.01 * plain.tightMm2());
        assertEquals(plain.bridges().get(0).gapMm(), finer.bridges().get(0).gapMm(), 0.03);
    }

    @Test
    void theMapShowsTheRadiusWhereClothMustLie() {
        MeasuredSolid solid = solid(roundGroove(2, 30, 180), MoldRegion.TOOL);
        float[] map = FabricFit.measure(solid, cloth(1)).map();
        for (int t = 0; t < map.length; t++) {
            var c = solid.mesh().centroid(t);
            if (!solid.isIn(t, MoldRegion.TOOL)) {
                assertTrue(Float.isNaN(map[t]));
            } else if (c.z < TOP - 0.5) {
                assertEquals(2, map[t], 0.2);
            } else if (Math.abs(Math.hypot(c.x, c.y) - 30) > 3) {
                assertEquals(4, map[t], "flat: as large as the map goes");
            }
        }
    }

    @Test
    void theFiguresDoNotDependOnTheNumberOfThreads() throws Exception {
        MeasuredSolid solid = solid(trench(), MoldRegion.TOOL);
        FabricFigures[] figures = new FabricFigures[2];
        for (int i = 0; i < 2; i++) {
            ForkJoinPool pool = new ForkJoinPool(i == 0 ? 1 : 5);
            figures[i] = pool.submit(() -> FabricFit.measure(solid, cloth(1)).figures()).get();
            pool.shutdown();
        }
        assertEquals(figures[0], figures[1]);
    }
}
