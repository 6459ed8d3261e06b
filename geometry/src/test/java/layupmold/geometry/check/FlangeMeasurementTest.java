package layupmold.geometry.check;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.InspectSpec;
import org.junit.jupiter.api.Test;

/** Walls of plane facets whose slopes are known, and a border whose rim and outline are. */
class FlangeMeasurementTest {

    private static final double DRAFT_DEG = 5;
    private static final double HEIGHT_MM = 20;

    @Test
    void aPlaneWallHasItsDraft() {
        assertEquals(DRAFT_DEG, leastDraftDeg(wall(0)), 1e-9);
    }

    /** 0.02 mm² of an overhang beside 2,000 mm² of wall. */
    @Test
    void facetsThatNoClothNoticesDoNotCount() {
        assertEquals(DRAFT_DEG, leastDraftDeg(wall(0.2)), 1e-9);
    }

    /** 12.5 mm² beside the same. */
    @Test
    void anOverhangThatMattersCounts() {
        assertEquals(-90, leastDraftDeg(wall(5)), 1e-6);
    }

    private static double leastDraftDeg(TriangleMesh wall) {
        byte[] regions = new byte[wall.triangleCount()];
        Arrays.fill(regions, (byte) MoldRegion.WALL.ordinal());
        return FlangeMeasurement.leastWallDraftDeg(wall, regions);
    }

    /** A rectangle 100 mm long, leaning back by the draft, and a triangle of two sides of the given length facing down. */
    private static TriangleMesh wall(double overhangMm) {
        double back = HEIGHT_MM * Math.tan(Math.toRadians(DRAFT_DEG));
        double[] xyz = {0, 0, 0, 100, 0, 0, 100, back, HEIGHT_MM, 0, back, HEIGHT_MM,
            0, 0, 50, 0, overhangMm, 50, overhangMm, 0, 50};
        return new TriangleMesh(xyz, new int[] {0, 1, 2, 0, 2, 3, 4, 5, 6});
    }

    /** A corner of the rim is 10 mm from the outline's side; the outline's corners are 42 mm from the rim. */
    @Test
    void aBorderIsAsNarrowAsWhereItsRimsCornerMeetsTheOutlinesSide() {
        FlangeMeasurement.Border border = diamondInASquare();
        assertEquals(10, border.widthMm(), 1e-9);
        assertEquals(40, Math.hypot(border.at().x(), border.at().y()), 1e-9);
        assertEquals(List.of(), FlangeMeasurement.check(border, 10));
        Finding failure = FlangeMeasurement.check(border, 10.5).get(0);
        assertEquals("flange-too-narrow", failure.code());
        assertEquals(10, failure.figure(), 1e-9);
        assertEquals(border.at(), failure.place());
    }

    /** A corner of the rim that stands off the plane tips the triangles at it: those are level as far as halfway to it. */
    @Test
    void aBorderGoesOnToWhereItLeavesItsPlane() {
        double levelMm = InspectSpec.LEAST_TOLERANCE_MM;
        assertEquals(10, diamondInASquare(0.99 * levelMm).widthMm(), 1e-3);
        assertEquals(5, diamondInASquare(2 * levelMm).widthMm(), 1e-3);
    }

    private static FlangeMeasurement.Border diamondInASquare() {
        return diamondInASquare(0);
    }

    private static FlangeMeasurement.Border diamondInASquare(double risenMm) {
        double[] xyz = {40, 0, risenMm, 0, 40, 0, -40, 0, 0, 0, -40, 0, 50, 50, 0, -50, 50, 0, -50, -50, 0, 50, -50, 0,
            0, 0, -5, 0, 0, -90};
        int[] triangles = new int[48];
        byte[] regions = new byte[16];
        for (int i = 0; i < 4; i++) {
            int next = (i + 1) % 4;
            int[] sector = {i, 4 + i, next, next, 4 + i, 4 + next, i, next, 8, 4 + next, 4 + i, 9};
            System.arraycopy(sector, 0, triangles, 12 * i, 12);
            MoldRegion[] labels = {MoldRegion.BORDER, MoldRegion.BORDER, MoldRegion.EDGE, MoldRegion.SIDE};
            for (int k = 0; k < 4; k++) {
                regions[4 * i + k] = (byte) labels[k].ordinal();
            }
        }
        TriangleMesh mesh = new TriangleMesh(xyz, triangles);
        EdgeTopology topology = EdgeTopology.of(mesh);
        assertTrue(topology.isClosedAndOriented());
        return FlangeMeasurement.narrowestBorder(mesh, regions, topology);
    }
}
