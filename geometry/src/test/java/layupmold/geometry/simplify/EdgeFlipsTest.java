package layupmold.geometry.simplify;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;
import org.junit.jupiter.api.Test;

class EdgeFlipsTest {

    /** The roof z = |x| over a square standing on its corner, halved across its valley instead of along it. */
    private static final TriangleMesh ACROSS = new TriangleMesh(
            new double[] {-1, 0, 1, 0, -1, 0, 1, 0, 1, 0, 1, 0}, new int[] {0, 1, 2, 0, 2, 3});

    private static TriangleMesh flip(int[] labels, double tolerance) {
        return EdgeFlips.flip(ACROSS, labels, t -> true, v -> true, () -> (x, y, z) -> z - Math.abs(x), tolerance);
    }

    @Test
    void theEdgeAcrossTheValleyBecomesTheValley() {
        TriangleMesh along = flip(new int[2], 0.01);
        for (int t = 0; t < 2; t++) {
            int[] corners = Arrays.copyOfRange(along.triangles(), 3 * t, 3 * t + 3);
            assertEquals(1, Arrays.stream(corners).filter(v -> v == 1).count(), "on the valley");
            assertEquals(1, Arrays.stream(corners).filter(v -> v == 3).count(), "on the valley");
            // Both halves of the roof: 45° planes, area √2 · 1 each.
            assertEquals(Math.sqrt(2), along.areaNormal(t).length() / 2, 1e-12);
        }
    }

    @Test
    void nothingIsFlippedWithinTheToleranceOrAcrossABorder() {
        assertArrayEquals(ACROSS.triangles(), flip(new int[2], 2).triangles());
        assertArrayEquals(ACROSS.triangles(), flip(new int[] {0, 1}, 0.01).triangles());
    }
}
