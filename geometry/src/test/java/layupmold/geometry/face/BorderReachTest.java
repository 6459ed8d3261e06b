package layupmold.geometry.face;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.junit.jupiter.api.Test;

/** Distances along the edges of a square grid, from one of its sides. */
class BorderReachTest {

    private static final int ROW = 9;

    /** The sheet's very first half-edge lies on its border: no vertex inside may take it for its own. */
    @Test
    void reachesAcrossAnOpenSheetFromItsSide() {
        TriangleMesh sheet = grid();
        EdgeTopology topology = EdgeTopology.of(sheet);
        assertEquals(EdgeTopology.BOUNDARY, topology.twin(0));
        BorderReach reach = new BorderReach(sheet);
        assertTrue(reach.isEmpty());
        for (int x = 0; x < ROW; x++) {
            reach.start(x, true);
        }
        reach.spread(topology, 5);
        boolean[] reached = reach.triangles();
        for (int t = 0; t < reached.length; t++) {
            double highest = 0;
            for (int k = 0; k < 3; k++) {
                double y = sheet.corner(t, k).y;
                highest = Math.max(highest, y);
                assertEquals(y <= 5 ? y : Double.POSITIVE_INFINITY, reach.distance(t, k), 1e-6);
            }
            assertEquals(highest <= 5, reached[t]);
        }
        assertTrue(reach.isAtPerimeter(3 * ROW + 4));
        assertFalse(reach.isAtPerimeter(7 * ROW + 4));
    }

    private static TriangleMesh grid() {
        double[] xyz = new double[3 * ROW * ROW];
        for (int v = 0; v < ROW * ROW; v++) {
            xyz[3 * v] = v % ROW;
            xyz[3 * v + 1] = v / ROW;
        }
        int cells = (ROW - 1) * (ROW - 1);
        int[] triangles = new int[6 * cells];
        for (int c = 0; c < cells; c++) {
            int v = c / (ROW - 1) * ROW + c % (ROW - 1);
            int[] two = {v, v + 1, v + ROW + 1, v, v + ROW + 1, v + ROW};
            System.arraycopy(two, 0, triangles, 6 * c, 6);
        }
        return new TriangleMesh(xyz, triangles);
    }
}
