package layupmold.geometry.simplify;

import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import layupmold.geometry.mesh.TriangleMesh;
import org.junit.jupiter.api.Test;

class CollapseGuardTest {

    /** The foot of a steep cone's slivers: five triangles around the first vertex, four of them without height. */
    private final HalfEdgeMesh slivers = new HalfEdgeMesh(new TriangleMesh(new double[] {
        19.03039551, -18.94384766, -0.53417969, 19.89007568, -20.21069336, -9.68707275,
        19.02984619, -18.94335938, -0.52996826, 20.38891602, -19.64971924, -9.68701172,
        20.35235596, -19.71612549, -9.68707275, 19.03131104, -18.94464111, -0.54107666,
        19.05, -20.73, -9.687, 20.65, -19.05, -9.687, 20.45, -19.72, -10.3, 20.15, -19.99, -9.687},
            new int[] {0, 1, 2, 3, 0, 2, 3, 4, 0, 4, 5, 0, 0, 5, 1,
                2, 1, 6, 3, 2, 7, 4, 3, 8, 5, 4, 9, 1, 5, 9, 3, 7, 8}));

    private boolean allowsTo(int end) {
        HalfEdgeMesh.Fan fan = new HalfEdgeMesh.Fan();
        slivers.fan(0, fan);
        for (int i = 0; i < fan.size; i++) {
            if (slivers.to(fan.halfEdges[i]) == end) {
                return new CollapseGuard(slivers, 0).allows(fan.halfEdges[i], fan, false);
            }
        }
        throw new AssertionError("no edge from 0 to " + end);
    }

    /** Drawn down to the wide end, the last one would grow to millimetres, facing back. */
    @Test
    void aTriangleWithoutHeightMayNotGrowToFaceBack() {
        assertFalse(allowsTo(3));
    }

    @Test
    void theFootMayMoveAlongTheSlivers() {
        assertTrue(allowsTo(5));
    }
}
