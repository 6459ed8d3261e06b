package layupmold.geometry.mesh.prepare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;

class EditableMeshProperties {

    /** Random flips and collapses keep a manifold of the same Euler characteristic, and its twins right. */
    @Property(tries = 500, seed = "71")
    void editsKeepTheSurfaceWhole(@ForAll long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        boolean closed = random.nextBoolean();
        TriangleMesh mesh = closed ? Shapes.sphere(10, 4) : Shapes.sheet(10, 5);
        EdgeTopology before = EdgeTopology.of(mesh);
        int[] twin = IntStream.range(0, before.halfEdgeCount()).map(before::twin).toArray();
        EditableMesh edited = new EditableMesh(mesh.xyz(), mesh.triangles().clone(), twin);
        int done = 0;
        for (int i = 0; i < 200; i++) {
            int h = random.nextInt(twin.length);
            if (!edited.gone[h / 3]) {
                done += (random.nextInt(3) == 0 ? edited.collapse(h) : edited.flip(h)) ? 1 : 0;
            }
        }
        assertTrue(done > 0);
        int[] left = IntStream.range(0, twin.length).filter(h -> !edited.gone[h / 3]).map(h -> edited.triangles[h])
                .toArray();
        EdgeTopology after = EdgeTopology.of(new TriangleMesh(mesh.xyz(), left));
        assertEquals(0, after.nonManifoldCount());
        assertEquals(closed, after.boundaryCount() == 0);
        assertEquals(0, after.nonManifoldVertices(mesh.vertexCount()).length);
        long vertices = IntStream.of(left).distinct().count();
        long edges = (left.length + after.boundaryCount()) / 2;
        assertEquals(closed ? 2 : 1, vertices - edges + left.length / 3);
        int[] number = new int[twin.length / 3];
        for (int t = 0, at = 0; t < number.length; t++) {
            number[t] = edited.gone[t] ? -1 : at++;
        }
        for (int h = 0; h < twin.length; h++) {
            if (!edited.gone[h / 3]) {
                int expected = after.twin(3 * number[h / 3] + h % 3);
                int actual = twin[h] < 0 ? EdgeTopology.BOUNDARY : 3 * number[twin[h] / 3] + twin[h] % 3;
                assertEquals(expected, actual);
            }
        }
    }
}
