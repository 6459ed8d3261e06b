package layupmold.geometry.opening;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Random;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MinimumAreaPatchTest {

    @ParameterizedTest
    @ValueSource(ints = {3, 4, 5, 6, 8, 10})
    void noTriangulationHasLessArea(int corners) {
        for (long seed = 0; seed < 20; seed++) {
            double[] xyz = new Random(seed).doubles(3L * corners).toArray();
            int[] triangles = MinimumAreaPatch.triangulate(xyz, (i, j) -> false);
            assertEquals(3 * (corners - 2), triangles.length);
            assertEquals(leastByTrial(xyz, 0, corners - 1, (i, j, k) -> false), area(xyz, triangles), 1e-12);
        }
    }

    @Test
    void followsTheLoopsDirection() {
        double[] xyz = {0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0, -1, 0.5, 0};
        int[] triangles = MinimumAreaPatch.triangulate(xyz, (i, j) -> false);
        double[] normal = new double[3];
        for (int t = 0; t < triangles.length; t += 3) {
            Triangles.normal(xyz, triangles[t], triangles[t + 1], triangles[t + 2], normal, 0);
            assertTrue(normal[2] > 0);
        }
    }

    @Test
    void barredPairsAreNotJoined() {
        double[] square = {0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0};
        for (int barred = 0; barred < 2; barred++) {
            int from = barred;
            int[] triangles = MinimumAreaPatch.triangulate(square, (i, j) -> i == from && j == from + 2);
            for (int h = 0; h < triangles.length; h++) {
                int a = triangles[h];
                int b = triangles[h % 3 == 2 ? h - 2 : h + 1];
                assertTrue(Math.min(a, b) != from || Math.max(a, b) != from + 2);
            }
        }
        assertNull(MinimumAreaPatch.triangulate(square, (i, j) -> (j - i) % 2 == 0));
    }

    @ParameterizedTest
    @ValueSource(ints = {4, 6, 8})
    void noTriangulationWithoutBarredTrianglesHasLessArea(int corners) {
        int none = 0;
        for (long seed = 0; seed < 40; seed++) {
            double[] xyz = new Random(seed).doubles(3L * corners).toArray();
            long salt = seed;
            MinimumAreaPatch.BarredTriangle barred =
                    (i, j, k) -> new Random(salt + 97L * i + 1009L * j + 10007L * k).nextInt(3) == 0;
            int[] triangles = MinimumAreaPatch.triangulate(xyz, (i, j) -> false, barred);
            double least = leastByTrial(xyz, 0, corners - 1, barred);
            assertEquals(least == Double.POSITIVE_INFINITY, triangles == null);
            if (triangles != null) {
                assertEquals(least, area(xyz, triangles), 1e-12);
            }
            none += triangles == null ? 1 : 0;
        }
        assertTrue(none < 40, "some must be left");
    }

    /** Tries every triangulation of the corners from i to k: the Catalan numbers' recursion, without memory. */
    private static double leastByTrial(double[] xyz, int i, int k, MinimumAreaPatch.BarredTriangle barred) {
        if (k < i + 2) {
            return 0;
        }
        double least = Double.POSITIVE_INFINITY;
        for (int j = i + 1; j < k; j++) {
            if (!barred.test(i, j, k)) {
                least = Math.min(least, Triangles.area(xyz, i, j, k)
                        + leastByTrial(xyz, i, j, barred) + leastByTrial(xyz, j, k, barred));
            }
        }
        return least;
    }

    private static double area(double[] xyz, int[] triangles) {
        double sum = 0;
        for (int t = 0; t < triangles.length; t += 3) {
            sum += Triangles.area(xyz, triangles[t], triangles[t + 1], triangles[t + 2]);
        }
        return sum;
    }
}
