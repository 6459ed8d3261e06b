package layupmold.geometry.mesh;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import layupmold.geometry.shapes.Shapes;
import org.junit.jupiter.api.Test;

class EdgeTopologyTest {

    @Test
    void aSphereIsClosedAndMeasuresRight() {
        TriangleMesh sphere = Shapes.sphere(10, 300);
        EdgeTopology topology = EdgeTopology.of(sphere);
        assertTrue(topology.isClosedAndOriented());
        assertEquals(0, topology.nonManifoldVertices(sphere.vertexCount()).length);
        assertEquals(4.0 / 3 * Math.PI * 1000, sphere.volume(), 0.5);
        assertEquals(4 * Math.PI * 100, sphere.area(), 0.1);
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            assertEquals(h, topology.twin(topology.twin(h)));
            assertEquals(topology.from(h), topology.to(topology.twin(h)));
        }
    }

    @Test
    void aSheetHasOneLoopWithTheMeshOnItsLeft() {
        TriangleMesh sheet = Shapes.sheet(6, 6);
        EdgeTopology topology = EdgeTopology.of(sheet);
        List<int[]> loops = topology.boundaryLoops();
        assertEquals(1, loops.size());
        assertEquals(24, loops.get(0).length);
        double twiceArea = 0;
        for (int h : loops.get(0)) {
            double[] xyz = sheet.xyz();
            int a = 3 * topology.from(h);
            int b = 3 * topology.to(h);
            twiceArea += xyz[a] * xyz[b + 1] - xyz[b] * xyz[a + 1];
        }
        assertEquals(72, twiceArea, 1e-12);
    }

    @Test
    void threeTrianglesOnAnEdgeAndDisagreeingNeighboursAreNonManifold() {
        double[] xyz = {0, 0, 0, 1, 0, 0, 0, 1, 0, 0, -1, 0, 0, 0, 1};
        EdgeTopology fin = EdgeTopology.of(new TriangleMesh(xyz, new int[] {0, 1, 2, 1, 0, 3, 0, 1, 4}));
        assertEquals(3, fin.nonManifoldCount());
        assertFalse(fin.isClosedAndOriented());
        EdgeTopology disagree = EdgeTopology.of(new TriangleMesh(xyz, new int[] {0, 1, 2, 0, 1, 3}));
        assertEquals(2, disagree.nonManifoldCount());
    }

    @Test
    void twoFansMeetingInAPointAreFoundAndTheirLoopsStayApart() {
        double[] xyz = {0, 0, 0, 1, 0, 0, 0, 1, 0, -1, 0, 0, 0, -1, 0};
        TriangleMesh bow = new TriangleMesh(xyz, new int[] {0, 1, 2, 0, 3, 4});
        EdgeTopology topology = EdgeTopology.of(bow);
        assertArrayEquals(new int[] {0}, topology.nonManifoldVertices(5));
        assertEquals(2, topology.boundaryLoops().size());
    }
}
