package layupmold.geometry.check;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.mesh.TriangleMesh;
import org.junit.jupiter.api.Test;

/** Walls of plane facets whose slopes are known. */
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
}
