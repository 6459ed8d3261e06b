package layupmold.geometry.inspect;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Values over an area: each value stands for the piece of surface it was measured on.
 *
 * <p>Order is taken in 32-bit floats, so values closer than about 1e-7 of their size may swap; the values returned are
 * the given doubles. NaN means "not measured here" and is left out. O(n log n) once, then O(log n) a question.
 */
final class Distribution {

    private final double[] values;
    private final double[] weights;
    private final int[] order;
    private final double[] cumulative;

    /**
     * @param values one a sample; NaN to leave it out
     * @param weights area of each sample, mm²
     */
    Distribution(double[] values, double[] weights) {
        this.values = values;
        this.weights = weights;
        this.order = sorted(values);
        this.cumulative = new double[order.length];
        double sum = 0;
        for (int i = 0; i < order.length; i++) {
            sum += weights[order[i]];
            cumulative[i] = sum;
        }
    }

    private static int[] sorted(double[] values) {
        long[] keys = new long[values.length];
        int n = 0;
        for (int i = 0; i < values.length; i++) {
            if (!Double.isNaN(values[i])) {
                int bits = Float.floatToIntBits((float) values[i]);
                // Two's complement order of float bits: negative floats count down, so flip their lower 31 bits.
                int ordered = bits ^ (bits >> 31 & 0x7fffffff);
                keys[n++] = (long) ordered << 32 | i;
            }
        }
        Arrays.parallelSort(keys, 0, n);
        int[] order = new int[n];
        for (int i = 0; i < n; i++) {
            order[i] = (int) keys[i];
        }
        return order;
    }

    boolean isEmpty() {
        return order.length == 0;
    }

    /** Number of measured samples. */
    int count() {
        return order.length;
    }

    /** The sample that is {@code rank}-th from the least, from 0. */
    int sample(int rank) {
        return order[rank];
    }

    /** Area of all measured samples. */
    double area() {
        return isEmpty() ? 0 : cumulative[cumulative.length - 1];
    }

    /** The value that {@code share} (0 to 1) of the area does not exceed; NaN if nothing was measured. */
    double quantile(double share) {
        if (isEmpty()) {
            return Double.NaN;
        }
        int i = Arrays.binarySearch(cumulative, share * area());
        return values[order[Math.min(i < 0 ? -i - 1 : i, order.length - 1)]];
    }

    /** Area whose value is less than {@code limit}. */
    double areaBelow(double limit) {
        int low = 0;
        int high = order.length;
        while (low < high) {
            int mid = (low + high) >>> 1;
            if (values[order[mid]] < limit) {
                low = mid + 1;
            } else {
                high = mid;
            }
        }
        return low == 0 ? 0 : cumulative[low - 1];
    }

    double mean() {
        double sum = 0;
        for (int s : order) {
            sum += values[s] * weights[s];
        }
        return sum / area();
    }

    Histogram histogram(double from, double to, int bins) {
        double[] areas = new double[bins];
        for (int s : order) {
            int bin = (int) Math.floor((values[s] - from) / (to - from) * bins);
            areas[Math.max(0, Math.min(bins - 1, bin))] += weights[s];
        }
        List<Double> list = new ArrayList<>(bins);
        for (double area : areas) {
            list.add(area);
        }
        return new Histogram(from, to, list);
    }
}
