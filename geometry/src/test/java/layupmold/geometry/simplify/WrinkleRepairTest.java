package layupmold.geometry.simplify;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import org.junit.jupiter.api.Test;

class WrinkleRepairTest {

    private static final TriangleMesh SHEET = Shapes.sheet(10, 10);

    private static final Target PLANE = new Plane();

    private static TriangleMesh shifted(int vertex, double dx, double dy) {
        double[] xyz = SHEET.xyz().clone();
        xyz[3 * vertex] += dx;
        xyz[3 * vertex + 1] += dy;
        return new TriangleMesh(xyz, SHEET.triangles());
    }

    /** A vertex of a flat sheet that moved past its neighbour turns triangles over; a flip or a collapse rights them. */
    @Test
    void triangleTurnedWithinThePlaneIsRighted() {
        int middle = 5 * 11 + 5;
        TriangleMesh moved = shifted(middle, 1.2, 0.1);
        assertTrue(turned(moved) > 0, "the test's own sheet has turned triangles");
        WrinkleRepair.Result result =
                WrinkleRepair.repair(SHEET.xyz(), moved, new byte[SHEET.triangleCount()], PLANE, 0.01);
        assertEquals(0, turned(result.mesh()));
        EdgeTopology edges = EdgeTopology.of(result.mesh());
        assertEquals(0, edges.nonManifoldCount());
        assertEquals(EdgeTopology.of(SHEET).boundaryCount(), edges.boundaryCount());
        assertEquals(100, result.mesh().area(), 1e-9);
    }

    /** Where the labels change no edge may go, so nothing is done. */
    @Test
    void bordersBetweenLabelsStay() {
        int middle = 5 * 11 + 5;
        TriangleMesh moved = shifted(middle, 1.2, 0.1);
        byte[] labels = new byte[SHEET.triangleCount()];
        for (int t = 0; t < labels.length; t++) {
            labels[t] = (byte) t;
        }
        WrinkleRepair.Result result = WrinkleRepair.repair(SHEET.xyz(), moved, labels, PLANE, 0.01);
        assertEquals(SHEET.triangleCount(), result.mesh().triangleCount());
        assertEquals(turned(moved), turned(result.mesh()));
    }

    private static int turned(TriangleMesh mesh) {
        int count = 0;
        for (int t = 0; t < mesh.triangleCount(); t++) {
            count += mesh.areaNormal(t).z <= 0 ? 1 : 0;
        }
        return count;
    }
}
