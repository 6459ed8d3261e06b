package layupmold.geometry.bvh;

import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/** Sorts triangles along a Morton (Z-order) curve through their centroids, 13 bits an axis, ties by index. */
final class MortonOrder {

    private static final int INDEX_BITS = 23;
    private static final int CELLS = 1 << 13;
    private static final int GRAIN = 1 << 15;

    private MortonOrder() {
    }

    static int[] of(TriangleMesh mesh) {
        int n = mesh.triangleCount();
        if (n >= 1 << INDEX_BITS) {
            throw new IllegalArgumentException("at most " + (1 << INDEX_BITS) + " triangles, not " + n);
        }
        double[] xyz = mesh.xyz();
        int[] triangles = mesh.triangles();
        double[] box = mesh.bounds();
        double extent = Math.max(box[3] - box[0], Math.max(box[4] - box[1], box[5] - box[2]));
        double scale = extent > 0 ? (CELLS - 1) / (3 * extent) : 0;
        long[] keys = new long[n];
        Parallel.forRanges(n, GRAIN, (chunk, from, to) -> {
            for (int t = from; t < to; t++) {
                int a = 3 * triangles[3 * t];
                int b = 3 * triangles[3 * t + 1];
                int c = 3 * triangles[3 * t + 2];
                long x = (long) ((xyz[a] + xyz[b] + xyz[c] - 3 * box[0]) * scale);
                long y = (long) ((xyz[a + 1] + xyz[b + 1] + xyz[c + 1] - 3 * box[1]) * scale);
                long z = (long) ((xyz[a + 2] + xyz[b + 2] + xyz[c + 2] - 3 * box[2]) * scale);
                keys[t] = (spread(x) | spread(y) << 1 | spread(z) << 2) << INDEX_BITS | t;
            }
        });
        Arrays.parallelSort(keys);
        int[] order = new int[n];
        for (int i = 0; i < n; i++) {
            order[i] = (int) (keys[i] & ((1 << INDEX_BITS) - 1));
        }
        return order;
    }

    /** Puts two zero bits between the low bits of {@code v}. */
    private static long spread(long v) {
        long x = Math.max(0, v) & 0x1fffL;
        x = (x | x << 32) & 0x1f00000000ffffL;
        x = (x | x << 16) & 0x1f0000ff0000ffL;
        x = (x | x << 8) & 0x100f00f00f00f00fL;
        x = (x | x << 4) & 0x10c30c30c30c30c3L;
        x = (x | x << 2) & 0x1249249249249249L;
        return x;
    }
}
