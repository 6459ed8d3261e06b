package layupmold.geometry.bvh;

import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/**
 * Orders triangles for a balanced tree: each node's triangles are parted at the median of their centroids along the
 * longest side of the box around those, ties by index. Expected O(n log n), on all threads; the order is the same
 * whatever their number, since a median parts any sequence into the same two sets.
 */
final class MedianOrder {

    /** Ranges smaller than this are not shared between threads. */
    private static final int SHARED = 1 << 14;
    private static final int GRAIN = 1 << 15;
    /** Ranges shorter than this are parted by the median of three. */
    private static final int SAMPLED = 1 << 10;
    private static final int SAMPLES = 32;

    private final int leaves;
    private final int n;
    private final int[] order;
    /** Three times the centroids, by place in the order. */
    private final float[][] centroids;

    private MedianOrder(TriangleMesh mesh, int leaves) {
        this.leaves = leaves;
        this.n = mesh.triangleCount();
        this.order = new int[n];
        this.centroids = new float[3][n];
        double[] xyz = mesh.xyz();
        int[] corners = mesh.triangles();
        Parallel.forRanges(n, GRAIN, (chunk, from, to) -> {
            for (int t = from; t < to; t++) {
                order[t] = t;
                for (int k = 0; k < 3; k++) {
                    centroids[k][t] = (float) (xyz[3 * corners[3 * t] + k] + xyz[3 * corners[3 * t + 1] + k]
                            + xyz[3 * corners[3 * t + 2] + k]);
                }
            }
        });
    }

    /**
     * @param leaves a power of two; leaf {@code i} holds the places from {@code i n / leaves} on
     * @return triangles by place
     */
    static int[] of(TriangleMesh mesh, int leaves) {
        MedianOrder median = new MedianOrder(mesh, leaves);
        median.part(0, leaves);
        return median.order;
    }

    private int start(int leaf) {
        return (int) ((long) leaf * n / leaves);
    }

    /** Parts the triangles of leaves {@code first} to {@code end}. */
    private void part(int first, int end) {
        int from = start(first);
        int to = start(end);
        if (end - first == 1) {
            Arrays.sort(order, from, to);
            return;
        }
        int middle = (first + end) / 2;
        select(centroids[longestAxis(from, to)], from, to, start(middle));
        if (to - from > SHARED) {
            Parallel.all(() -> part(first, middle), () -> part(middle, end));
        } else {
            part(first, middle);
            part(middle, end);
        }
    }

    /** All three axes in one pass: none waits for its own last comparison. */
    private int longestAxis(int from, int to) {
        float[] x = centroids[0];
        float[] y = centroids[1];
        float[] z = centroids[2];
        float lowX = x[from];
        float lowY = y[from];
        float lowZ = z[from];
        float highX = lowX;
        float highY = lowY;
        float highZ = lowZ;
        for (int i = from + 1; i < to; i++) {
            lowX = x[i] < lowX ? x[i] : lowX;
            lowY = y[i] < lowY ? y[i] : lowY;
            lowZ = z[i] < lowZ ? z[i] : lowZ;
            highX = x[i] > highX ? x[i] : highX;
            highY = y[i] > highY ? y[i] : highY;
            highZ = z[i] > highZ ? z[i] : highZ;
        }
        float dx = highX - lowX;
        float dy = highY - lowY;
        float dz = highZ - lowZ;
        return dx >= dy && dx >= dz ? 0 : dy >= dz ? 1 : 2;
    }

    /**
     * Moves the least triangles by {@code key} before place {@code at} (C. A. R. Hoare, "Find", 1961). Pivots of long ranges
     * come from a sample (as in R. W. Floyd, R. L. Rivest, "Expected time bounds for selection", 1975), taken evenly since
     * a mesh's triangles are not in random order.
     */
    private void select(float[] key, int from, int to, int at) {
        int low = from;
        int high = to - 1;
        while (low < high && at > low && at <= high) {
            int pivot = high - low < SAMPLED ? medianOfThree(key, low, high) : likely(key, low, high, at);
            float value = key[pivot];
            int index = order[pivot];
            int i = low;
            int j = high;
            while (i <= j) {
                while (isLess(key, i, value, index)) {
                    i++;
                }
                while (isMore(key, j, value, index)) {
                    j--;
                }
                if (i <= j) {
                    swap(i++, j--);
                }
            }
            // Places up to j come before the pivot or are it, those from i on come after or are it.
            if (at <= j) {
                high = j;
            } else if (at >= i) {
                low = i;
            } else {
                return;
            }
        }
    }

    /** The place whose rank among places taken evenly is the one that {@code at} has in the range. */
    private int likely(float[] key, int low, int high, int at) {
        int stride = (high - low) / SAMPLES;
        int[] places = new int[SAMPLES];
        for (int s = 0; s < SAMPLES; s++) {
            int place = low + stride / 2 + s * stride;
            int k = s;
            for (; k > 0 && isLess(key, place, key[places[k - 1]], order[places[k - 1]]); k--) {
                places[k] = places[k - 1];
            }
            places[k] = place;
        }
        return places[(int) ((long) (at - low) * SAMPLES / (high - low + 1))];
    }

    private int medianOfThree(float[] key, int low, int high) {
        int middle = (low + high) >>> 1;
        boolean lowFirst = isLess(key, low, key[middle], order[middle]);
        boolean middleFirst = isLess(key, middle, key[high], order[high]);
        if (lowFirst == middleFirst) {
            return middle;
        }
        boolean lowBeforeHigh = isLess(key, low, key[high], order[high]);
        return lowFirst == lowBeforeHigh ? high : low;
    }

    private boolean isLess(float[] key, int i, float value, int index) {
        return key[i] < value || key[i] == value && order[i] < index;
    }

    private boolean isMore(float[] key, int i, float value, int index) {
        return key[i] > value || key[i] == value && order[i] > index;
    }

    private void swap(int i, int j) {
        int t = order[i];
        order[i] = order[j];
        order[j] = t;
        for (float[] c : centroids) {
            float x = c[i];
            c[i] = c[j];
            c[j] = x;
        }
    }
}
