package layupmold.geometry.face;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;
import org.junit.jupiter.api.Test;

class ShortBorderEdgesTest {

    /** A flat ring whose inner border's corners stand in pairs, a micrometre apart, as boolean operations leave them. */
    @Test
    void pairsOfCornersBecomeOne() {
        FaceMesh ring = ring(48, 1e-6);
        FaceMesh left = ShortBorderEdges.without(ring, 0.002);
        assertEquals(2, left.topology().boundaryLoops().size());
        assertEquals(ring.mesh().area(), left.mesh().area(), 1e-3);
        for (int[] loop : left.topology().boundaryLoops()) {
            assertEquals(48, loop.length);
        }
        assertEquals(left.mesh().triangleCount(), left.source().length);
        assertTrue(Arrays.stream(left.source()).allMatch(t -> t < ring.source().length));
    }

    /** What turns the border is no matter of tolerance. */
    @Test
    void cornersThatCountStay() {
        FaceMesh ring = ring(48, 0.1);
        FaceMesh left = ShortBorderEdges.without(ring, 1e-5);
        assertEquals(ring.mesh().area(), left.mesh().area(), 1e-9);
        assertEquals(ring.source().length, left.source().length);
    }

    private static FaceMesh ring(int n, double share) {
        double[] xyz = new double[9 * n];
        for (int i = 0; i < n; i++) {
            put(xyz, i, 20, 2 * Math.PI * i / n);
            put(xyz, n + 2 * i, 10, 2 * Math.PI * i / n);
            put(xyz, n + 2 * i + 1, 10, 2 * Math.PI * (i + share) / n);
        }
        int[] triangles = new int[9 * n];
        for (int i = 0; i < n; i++) {
            int j = (i + 1) % n;
            int[] three = {i, n + 2 * i + 1, n + 2 * i, i, j, n + 2 * i + 1, n + 2 * i + 1, j, n + 2 * j};
            System.arraycopy(three, 0, triangles, 9 * i, 9);
        }
        int[] source = new int[3 * n];
        Arrays.setAll(source, t -> t);
        return FaceMesh.of(new TriangleMesh(xyz, triangles), source);
    }

    private static void put(double[] xyz, int v, double radius, double angle) {
        xyz[3 * v] = radius * Math.cos(angle);
        xyz[3 * v + 1] = radius * Math.sin(angle);
    }
}
