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

    /** Distance of vertex {@code v} from the loop; O(loop). */
    static double at(double[] xyz, int loopCount, int v) {
        double least = Double.POSITIVE_INFINITY;
        for (int a = 0; a < loopCount; a++) {
            least = Math.min(least, toSegment(xyz, v, a, (a + 1) % loopCount));
        }
        return least;
    }

    /** Moves vertex {@code v} away from the nearest point of the loop, or towards it, to the given distance; O(loop). */
    static void moveTo(double[] xyz, int loopCount, int v, double distance) {
        int nearest = 0;
        double least = Double.POSITIVE_INFINITY;
        for (int a = 0; a < loopCount; a++) {
            double d = toSegment(xyz, v, a, (a + 1) % loopCount);
            if (d < least) {
                least = d;
                nearest = a;
            }
        }
        int next = (nearest + 1) % loopCount;
        double share = shareAlong(xyz, v, nearest, next);
        for (int k = 0; k < 3 && least > 0; k++) {
            double foot = xyz[3 * nearest + k] + share * (xyz[3 * next + k] - xyz[3 * nearest + k]);
            xyz[3 * v + k] = foot + distance / least * (xyz[3 * v + k] - foot);
        }
    }

    /** Where on the segment, from 0 at {@code a} to 1 at {@code b}, {@code p} is nearest to. */
    private static double shareAlong(double[] xyz, int p, int a, int b) {
        double dot = 0;
        double square = 0;
        for (int k = 0; k < 3; k++) {
            double along = xyz[3 * b + k] - xyz[3 * a + k];
            dot += along * (xyz[3 * p + k] - xyz[3 * a + k]);
            square += along * along;
        }
        return square > 0 ? Math.max(0, Math.min(1, dot / square)) : 0;
    }

    private static double toSegment(double[] xyz, int p, int a, int b) {
        double share = shareAlong(xyz, p, a, b);
        double sum = 0;
        for (int k = 0; k < 3; k++) {
            double d = xyz[3 * p + k] - xyz[3 * a + k] - share * (xyz[3 * b + k] - xyz[3 * a + k]);
            sum += d * d;
        }
        return Math.sqrt(sum);
    }
}
