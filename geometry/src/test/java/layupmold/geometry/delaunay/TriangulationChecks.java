package layupmold.geometry.delaunay;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;

/** What any constrained Delaunay triangulation must satisfy, decided in exact decimal arithmetic. */
final class TriangulationChecks {

    private TriangulationChecks() {
    }

    /** Twice the signed area, exactly. */
    static BigDecimal twiceArea(double[] xy, int a, int b, int c) {
        return minus(xy, b, a, 0).multiply(minus(xy, c, a, 1)).subtract(minus(xy, b, a, 1).multiply(minus(xy, c, a, 0)));
    }

    /** Twice the signed area of a ring by the shoelace formula, exactly. */
    static BigDecimal twiceArea(double[] xy, int[] ring) {
        BigDecimal sum = BigDecimal.ZERO;
        for (int i = 1; i + 1 < ring.length; i++) {
            sum = sum.add(twiceArea(xy, ring[0], ring[i], ring[i + 1]));
        }
        return sum;
    }

    static BigDecimal coveredTwice(double[] xy, int[] triangles) {
        BigDecimal sum = BigDecimal.ZERO;
        for (int t = 0; t < triangles.length; t += 3) {
            BigDecimal twice = twiceArea(xy, triangles[t], triangles[t + 1], triangles[t + 2]);
            assertTrue(twice.signum() > 0, "triangle " + t / 3 + " is not counter-clockwise");
            sum = sum.add(twice);
        }
        return sum;
    }

    /** Directed edges with the triangle's third corner; fails if one occurs twice. */
    static Map<Long, Integer> directedEdges(int[] triangles) {
        Map<Long, Integer> edges = new HashMap<>();
        for (int t = 0; t < triangles.length; t += 3) {
            for (int i = 0; i < 3; i++) {
                Integer before = edges.put(key(triangles[t + i], triangles[t + (i + 1) % 3]),
                        triangles[t + (i + 2) % 3]);
                assertEquals(null, before, "an edge is used twice in the same direction");
            }
        }
        return edges;
    }

    static void assertSegmentsPresent(int[] triangles, int[] segments) {
        Map<Long, Integer> edges = directedEdges(triangles);
        for (int i = 0; i < segments.length; i += 2) {
            int a = segments[i];
            int b = segments[i + 1];
            assertTrue(edges.containsKey(key(a, b)) || edges.containsKey(key(b, a)), "segment " + i / 2 + " is missing");
        }
    }

    /** By Lee and Lin (1986) a triangulation is constrained Delaunay if every free edge is locally Delaunay. */
    static void assertLocallyDelaunay(double[] xy, int[] triangles, int[] segments) {
        Set<Long> fixed = new HashSet<>();
        for (int i = 0; i < segments.length; i += 2) {
            fixed.add(key(segments[i], segments[i + 1]));
            fixed.add(key(segments[i + 1], segments[i]));
        }
        Map<Long, Integer> edges = directedEdges(triangles);
        edges.forEach((edge, apex) -> {
            int a = (int) (edge >> 32);
            int b = edge.intValue();
            Integer far = edges.get(key(b, a));
            if (far != null && a < b && !fixed.contains(edge)) {
                assertTrue(inCircle(xy, a, b, apex, far) <= 0, "edge " + a + " " + b + " is not Delaunay");
            }
        });
    }

    /** No point of the whole set inside any triangle's circle; O(n²). */
    static void assertEmptyCircles(double[] xy, int[] triangles) {
        for (int t = 0; t < triangles.length; t += 3) {
            for (int p = 0; p < xy.length / 2; p++) {
                assertTrue(inCircle(xy, triangles[t], triangles[t + 1], triangles[t + 2], p) <= 0,
                        "point " + p + " lies in the circle of triangle " + t / 3);
            }
        }
    }

    /** Sign of the in-circle determinant, exactly. */
    static int inCircle(double[] xy, int a, int b, int c, int d) {
        BigDecimal[] x = {minus(xy, a, d, 0), minus(xy, b, d, 0), minus(xy, c, d, 0)};
        BigDecimal[] y = {minus(xy, a, d, 1), minus(xy, b, d, 1), minus(xy, c, d, 1)};
        BigDecimal sum = BigDecimal.ZERO;
        for (int i = 0; i < 3; i++) {
            int j = (i + 1) % 3;
            int k = (i + 2) % 3;
            BigDecimal lift = x[i].multiply(x[i]).add(y[i].multiply(y[i]));
            sum = sum.add(lift.multiply(x[j].multiply(y[k]).subtract(x[k].multiply(y[j]))));
        }
        return sum.signum();
    }

    private static BigDecimal minus(double[] xy, int p, int q, int axis) {
        return new BigDecimal(xy[2 * p + axis]).subtract(new BigDecimal(xy[2 * q + axis]));
    }

    static long key(int a, int b) {
        return (long) a << 32 | b;
    }

    static int[] segmentsOf(int[][] rings) {
        int count = 0;
        for (int[] ring : rings) {
            count += ring.length;
        }
        int[] segments = new int[2 * count];
        int i = 0;
        for (int[] ring : rings) {
            for (int k = 0; k < ring.length; k++) {
                segments[i++] = ring[k];
                segments[i++] = ring[(k + 1) % ring.length];
            }
        }
        return segments;
    }
}
