package layupmold.geometry.opening;

import java.util.Arrays;

/** Straight-line distances of a patch's vertices from its loop. */
final class LoopDistance {

    private LoopDistance() {
    }

    /**
     * Exact for vertices that lie within {@code width} or share an edge with one that does; a larger number elsewhere.
     * Vertices are sorted along x, so that each edge of the loop looks at those beside it only.
     */
    static double[] of(PatchMesh patch, double width) {
        int n = patch.loopCount;
        double reach = width + longestEdge(patch);
        double[] distance = new double[patch.vertexCount];
        Arrays.fill(distance, n, distance.length, 2 * reach);
        double[] xyz = patch.xyz;
        int[] order = new int[distance.length - n];
        Arrays.setAll(order, i -> n + i);
        order = Arrays.stream(order).boxed().sorted((u, v) -> Double.compare(xyz[3 * u], xyz[3 * v]))
                .mapToInt(Integer::intValue).toArray();
        for (int a = 0; a < n; a++) {
            int b = (a + 1) % n;
            double from = Math.min(xyz[3 * a], xyz[3 * b]) - reach;
            double to = Math.max(xyz[3 * a], xyz[3 * b]) + reach;
            for (int i = firstAtLeast(xyz, order, from); i < order.length && xyz[3 * order[i]] <= to; i++) {
                int v = order[i];
                distance[v] = Math.min(distance[v], toSegment(xyz, v, a, b));
            }
        }
        return distance;
    }

    private static double longestEdge(PatchMesh patch) {
        double longest = 0;
        for (int h = 0; h < 3 * patch.triangleCount; h++) {
            longest = Math.max(longest, Triangles.distance(patch.xyz, patch.origin[h], patch.destination(h)));
        }
        return longest;
    }

    private static int firstAtLeast(double[] xyz, int[] order, double x) {
        int low = 0;
        int high = order.length;
        while (low < high) {
            int middle = (low + high) >>> 1;
            if (xyz[3 * order[middle]] < x) {
                low = middle + 1;
            } else {
                high = middle;
            }
        }
        return low;
    }

    private static double toSegment(double[] xyz, int p, int a, int b) {
        double dot = 0;
        double square = 0;
        for (int k = 0; k < 3; k++) {
            double along = xyz[3 * b + k] - xyz[3 * a + k];
            dot += along * (xyz[3 * p + k] - xyz[3 * a + k]);
            square += along * along;
        }
        double share = square > 0 ? Math.max(0, Math.min(1, dot / square)) : 0;
        double sum = 0;
        for (int k = 0; k < 3; k++) {
            double d = xyz[3 * p + k] - xyz[3 * a + k] - share * (xyz[3 * b + k] - xyz[3 * a + k]);
            sum += d * d;
        }
        return Math.sqrt(sum);
    }
}
