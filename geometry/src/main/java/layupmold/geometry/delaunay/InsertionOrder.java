package layupmold.geometry.delaunay;

import java.util.Arrays;

/**
 * Order in which points enter a triangulation: rounds of doubling size, each along a Hilbert curve, so that the walk to
 * each next point is short and the expected number of flips is linear for any input (Amenta, Choi, Rote: "Incremental
 * constructions con BRIO", 2003). Rounds are drawn by a fixed hash of the index, so the order is reproducible.
 */
final class InsertionOrder {

    private static final int ROUND_BITS = 4;
    private static final int CURVE_BITS = 16;
    private static final int INDEX_BITS = 27;
    private static final int LAST_ROUND = (1 << ROUND_BITS) - 1;

    private InsertionOrder() {
    }

    /** The given point indices (each below 2^27) in insertion order; O(n log n). */
    static int[] of(double[] xy, int[] points) {
        double minX = Double.POSITIVE_INFINITY;
        double minY = Double.POSITIVE_INFINITY;
        double maxX = Double.NEGATIVE_INFINITY;
        double maxY = Double.NEGATIVE_INFINITY;
        for (int p : points) {
            minX = Math.min(minX, xy[2 * p]);
            maxX = Math.max(maxX, xy[2 * p]);
            minY = Math.min(minY, xy[2 * p + 1]);
            maxY = Math.max(maxY, xy[2 * p + 1]);
        }
        double extent = Math.max(maxX - minX, maxY - minY);
        double scale = extent > 0 ? ((1 << CURVE_BITS) - 1) / extent : 0;
        long[] keys = new long[points.length];
        for (int i = 0; i < points.length; i++) {
            int p = points[i];
            long curve = hilbert((int) ((xy[2 * p] - minX) * scale), (int) ((xy[2 * p + 1] - minY) * scale));
            keys[i] = (long) round(p) << 2 * CURVE_BITS + INDEX_BITS | curve << INDEX_BITS | p;
        }
        Arrays.sort(keys);
        int[] order = new int[points.length];
        for (int i = 0; i < order.length; i++) {
            order[i] = (int) (keys[i] & (1L << INDEX_BITS) - 1);
        }
        return order;
    }

    /** Half of all points get the last round, a quarter the one before, and so on. */
    private static int round(int point) {
        int hash = point * 0x9E3779B9;
        hash ^= hash >>> 15;
        hash *= 0x85EBCA6B;
        hash ^= hash >>> 13;
        return Math.max(0, LAST_ROUND - Integer.numberOfLeadingZeros(hash));
    }

    private static long hilbert(int x, int y) {
        long distance = 0;
        for (int s = 1 << CURVE_BITS - 1; s > 0; s >>= 1) {
            int rx = (x & s) == 0 ? 0 : 1;
            int ry = (y & s) == 0 ? 0 : 1;
            distance += (long) s * s * (3 * rx ^ ry);
            if (ry == 0) {
                if (rx == 1) {
                    x = (1 << CURVE_BITS) - 1 - x;
                    y = (1 << CURVE_BITS) - 1 - y;
                }
                int swap = x;
                x = y;
                y = swap;
            }
        }
        return distance;
    }
}
