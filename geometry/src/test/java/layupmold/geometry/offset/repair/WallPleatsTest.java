package layupmold.geometry.offset.repair;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.shapes.Soups;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

class WallPleatsTest {

    private static final double SIZE_MM = 12;

    @Test
    void aPleatGivesWayToWhatIsAroundIt() {
        TriangleMesh pleated = pleated();
        assertTrue(leastCosine(pleated) < -0.9, "least cosine " + leastCosine(pleated));
        assertEquals(0, SelfIntersections.find(pleated, 10).length, "the pleat lies over itself and does not cross");
        WallPleats.Result smooth = WallPleats.smooth(pleated, labels(pleated, MoldRegion.WALL));
        TriangleMesh mesh = smooth.mesh();
        EdgeTopology topology = EdgeTopology.of(mesh);
        assertEquals(0, topology.nonManifoldCount());
        assertEquals(1, topology.boundaryLoops().size());
        assertTrue(leastCosine(mesh) > -0.5, "least cosine " + leastCosine(mesh));
        double surplus = (mesh.area() - SIZE_MM * SIZE_MM) / (pleated.area() - SIZE_MM * SIZE_MM);
        assertTrue(surplus >= 0 && surplus < 0.7, "of what the pleat has more than a flat sheet it keeps " + surplus);
        assertEquals(0, SelfIntersections.find(mesh, 10).length);
        assertTrue(Arrays.stream(smooth.labels()).allMatch(r -> r == MoldRegion.WALL.ordinal()));
        assertEquals(mesh.triangleCount(), smooth.labels().length);
    }

    /** What copies the face is not changed, pleated or not. */
    @Test
    void theToolSurfaceStays() {
        TriangleMesh pleated = pleated();
        int[] labels = labels(pleated, MoldRegion.TOOL);
        WallPleats.Result same = WallPleats.smooth(pleated, labels);
        assertArrayEquals(pleated.triangles(), same.mesh().triangles());
        assertArrayEquals(pleated.xyz(), same.mesh().xyz());
        assertArrayEquals(labels, same.labels());
    }

    /** Another sheet reaches into the pleat from below: what would be flat across it is not taken. */
    @Test
    void nothingCrossesWhatLiesInThePleat() {
        TriangleMesh tongue = new TriangleMesh(
                new double[] {6.5, 5, 0.077, 6.5, 7, 0.077, 30, 6, -1.274}, new int[] {0, 1, 2});
        TriangleMesh both = Soups.union(pleated(), tongue);
        assertEquals(0, SelfIntersections.find(both, 10).length);
        TriangleMesh flat = Soups.union(Shapes.sheet(SIZE_MM, 12), tongue);
        assertTrue(SelfIntersections.find(flat, 10).length > 0);
        WallPleats.Result smooth = WallPleats.smooth(both, labels(both, MoldRegion.WALL));
        assertEquals(0, SelfIntersections.find(smooth.mesh(), 10).length);
    }

    /** A square sheet folded to a Z over its middle. */
    private static TriangleMesh pleated() {
        TriangleMesh flat = Shapes.sheet(SIZE_MM, 12);
        double[] box = flat.bounds();
        return Shapes.bent(flat, p -> {
            int column = (int) Math.round(p.x - box[0]);
            int row = (int) Math.round(p.y - box[1]);
            boolean within = row >= 4 && row <= 8;
            return !within || column < 6 || column > 7 ? new Vector3d(p)
                    : new Vector3d(box[0] + (column == 6 ? 6.9 : 6.1), p.y, p.z + (column == 6 ? 0.05 : 0.1));
        });
    }

    private static int[] labels(TriangleMesh mesh, MoldRegion region) {
        int[] labels = new int[mesh.triangleCount()];
        Arrays.fill(labels, region.ordinal());
        return labels;
    }

    private static double leastCosine(TriangleMesh mesh) {
        EdgeTopology topology = EdgeTopology.of(mesh);
        double least = 1;
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            if (topology.twin(h) > h) {
                Vector3d n = mesh.areaNormal(h / 3).normalize();
                least = Math.min(least, n.dot(mesh.areaNormal(topology.twin(h) / 3).normalize()));
            }
        }
        return least;
    }
}
