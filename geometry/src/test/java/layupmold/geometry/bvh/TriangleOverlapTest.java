package layupmold.geometry.bvh;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;

/**
 * Against separating planes in whole numbers. Two disjoint convex polyhedra are parted by a plane along a facet of their
 * Minkowski difference (S. Gottschalk, M. Lin, D. Manocha, "OBBTree", 1996, theorem 1): a triangle's own plane, one along
 * two of their edges, or one at right angles to a plane they share. Small coordinates make touching and flat pairs common.
 */
class TriangleOverlapTest {

    private static final int ROUNDS = 40_000;

    private final SplittableRandom random = new SplittableRandom(11);

    @Test
    void trianglesWithoutACommonVertexMeetUnlessAPlanePartsThem() {
        int apart = 0;
        for (int round = 0; round < ROUNDS; round++) {
            long[][] p = points(6, 2 + round % 7);
            if (isFlat(p[0], p[1], p[2]) || isFlat(p[3], p[4], p[5])) {
                continue;
            }
            boolean parted = areParted(List.of(p[0], p[1], p[2]), List.of(p[3], p[4], p[5]));
            assertEquals(!parted, TriangleOverlap.test(xyz(p), 0, 3, 6, 9, 12, 15), () -> words(p));
            apart += parted ? 1 : 0;
        }
        assertTrue(apart > ROUNDS / 10 && apart < ROUNDS * 9 / 10, "both must be common: " + apart);
    }

    @Test
    void trianglesWithACommonVertexMeetUnlessAPlaneThroughItPartsThem() {
        int apart = 0;
        for (int round = 0; round < ROUNDS; round++) {
            long[][] p = points(5, 2 + round % 7);
            if (isFlat(p[0], p[1], p[2]) || isFlat(p[0], p[3], p[4])) {
                continue;
            }
            boolean parted = arePartedAt(p[0], List.of(p[1], p[2]), List.of(p[3], p[4]));
            int turn = 3 * (round % 3);
            double[] xyz = xyz(p);
            assertEquals(!parted, TriangleOverlap.test(xyz, turn == 0 ? 0 : turn == 3 ? 6 : 3,
                    turn == 0 ? 3 : turn == 3 ? 0 : 6, turn == 0 ? 6 : turn == 3 ? 3 : 0, 9, 12, 0), () -> words(p));
            apart += parted ? 1 : 0;
        }
        assertTrue(apart > ROUNDS / 10 && apart < ROUNDS * 9 / 10, "both must be common: " + apart);
    }

    private long[][] points(int count, int size) {
        long[][] points = new long[count][3];
        for (long[] point : points) {
            for (int k = 0; k < 3; k++) {
                point[k] = random.nextInt(-size, size + 1);
            }
        }
        return points;
    }

    /** Whether a plane has one set strictly on one side and the other on the other. */
    private static boolean areParted(List<long[]> a, List<long[]> b) {
        for (long[] d : candidates(List.of(minus(a.get(1), a.get(0)), minus(a.get(2), a.get(1)), minus(a.get(0), a.get(2)),
                minus(b.get(1), b.get(0)), minus(b.get(2), b.get(1)), minus(b.get(0), b.get(2))))) {
            if (a.stream().mapToLong(p -> dot(d, p)).min().orElseThrow()
                    > b.stream().mapToLong(p -> dot(d, p)).max().orElseThrow()) {
                return true;
            }
        }
        return false;
    }

    /**
     * The directions that lie along no ray of one cone and against none of the other form a cone themselves; if it has an
     * inside, the sum of its extreme rays lies there.
     */
    private static boolean arePartedAt(long[] v, List<long[]> a, List<long[]> b) {
        List<long[]> rays = new ArrayList<>();
        a.forEach(p -> rays.add(minus(p, v)));
        b.forEach(p -> rays.add(minus(v, p)));
        long[] sum = new long[3];
        for (long[] d : candidates(rays)) {
            if (rays.stream().allMatch(ray -> dot(d, ray) >= 0)) {
                for (int k = 0; k < 3; k++) {
                    sum[k] += d[k];
                }
            }
        }
        return rays.stream().allMatch(ray -> dot(sum, ray) > 0);
    }

    /** Cross products of the vectors, of those with the vectors, and all of them reversed. */
    private static List<long[]> candidates(List<long[]> vectors) {
        List<long[]> found = new ArrayList<>();
        for (long[] u : vectors) {
            for (long[] v : vectors) {
                long[] normal = cross(u, v);
                found.add(normal);
                vectors.forEach(w -> found.add(cross(normal, w)));
                vectors.forEach(w -> found.add(cross(w, normal)));
            }
        }
        return found;
    }

    private static boolean isFlat(long[] a, long[] b, long[] c) {
        long[] n = cross(minus(b, a), minus(c, a));
        return dot(n, n) == 0;
    }

    private static long[] minus(long[] p, long[] q) {
        return new long[] {p[0] - q[0], p[1] - q[1], p[2] - q[2]};
    }

    private static long[] cross(long[] u, long[] v) {
        return new long[] {u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]};
    }

    private static long dot(long[] u, long[] v) {
        return u[0] * v[0] + u[1] * v[1] + u[2] * v[2];
    }

    private static double[] xyz(long[][] points) {
        double[] xyz = new double[3 * points.length];
        for (int i = 0; i < xyz.length; i++) {
            xyz[i] = points[i / 3][i % 3];
        }
        return xyz;
    }

    private static String words(long[][] points) {
        return Arrays.deepToString(points);
    }
}
