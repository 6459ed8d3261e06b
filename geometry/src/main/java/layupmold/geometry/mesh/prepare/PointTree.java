package layupmold.geometry.mesh.prepare;

import java.util.Arrays;

/**
 * A k-d tree over some of a mesh's vertices that finds those near a segment (J. L. Bentley, Multidimensional binary
 * search trees used for associative searching, Comm. ACM 18, 1975).
 *
 * <p>Built in O(n log n). A search cuts the segment at every split, so a long slanting segment visits only the cells
 * that it passes.
 */
final class PointTree {

    private static final int LEAF = 8;

    private final double[] xyz;
    private final int[] order;
    private final byte[] axis;

    private double[] from;
    private double[] to;
    private double reach;
    private int most;
    private int[] found = new int[16];
    private int foundCount;

    PointTree(double[] xyz, int[] vertices) {
        this.xyz = xyz;
        this.order = vertices.clone();
        this.axis = new byte[order.length];
        build(0, order.length);
    }

    private void build(int begin, int end) {
        int low = begin;
        while (end - low > LEAF) {
            int middle = low + end >>> 1;
            byte widest = widest(low, end);
            select(low, end - 1, middle, widest);
            axis[middle] = widest;
            build(low, middle);
            low = middle + 1;
        }
    }

    private byte widest(int begin, int end) {
        int best = 0;
        double most = -1;
        for (int k = 0; k < 3; k++) {
            double least = Double.POSITIVE_INFINITY;
            double greatest = Double.NEGATIVE_INFINITY;
            for (int i = begin; i < end; i++) {
                least = Math.min(least, at(i, k));
                greatest = Math.max(greatest, at(i, k));
            }
            if (greatest - least > most) {
                most = greatest - least;
                best = k;
            }
        }
        return (byte) best;
    }

    private double at(int i, int k) {
        return xyz[3 * order[i] + k];
    }

    /** Quickselect by median of three: the element of rank {@code wanted} moves there, lesser ones before it. */
    private void select(int first, int last, int wanted, int k) {
        int low = first;
        int high = last;
        while (low < high) {
            double pivot = median(at(low, k), at(low + high >>> 1, k), at(high, k));
            int i = low;
            int j = high;
            while (i <= j) {
                while (at(i, k) < pivot) {
                    i++;
                }
                while (at(j, k) > pivot) {
                    j--;
                }
                if (i <= j) {
                    int swap = order[i];
                    order[i++] = order[j];
                    order[j--] = swap;
                }
            }
            if (wanted <= j) {
                high = j;
            } else if (wanted >= i) {
                low = i;
            } else {
                return;
            }
        }
    }

    private static double median(double a, double b, double c) {
        return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
    }

    /**
     * Vertices no farther than {@code distance} from the segment between two points, ascending; where there are more
     * than {@code atMost}, some of them, always the same.
     */
    int[] near(double[] segmentFrom, double[] segmentTo, double distance, int atMost) {
        from = segmentFrom;
        to = segmentTo;
        reach = distance;
        most = atMost;
        foundCount = 0;
        search(0, order.length, 0, 1);
        int[] result = Arrays.copyOf(found, foundCount);
        Arrays.sort(result);
        return result;
    }

    private void search(int begin, int end, double first, double last) {
        if (end - begin <= LEAF) {
            for (int i = begin; i < end; i++) {
                test(order[i]);
            }
            return;
        }
        int middle = begin + end >>> 1;
        test(order[middle]);
        int k = axis[middle];
        double split = at(middle, k);
        double a = from[k];
        double d = to[k] - a;
        visit(begin, middle, first, last, split + reach - a, d);
        visit(middle + 1, end, first, last, a - (split - reach), -d);
    }

    /** Goes on with the part of the segment where {@code t * slope <= bound}. */
    private void visit(int begin, int end, double first, double last, double bound, double slope) {
        double t0 = first;
        double t1 = last;
        // A little slack keeps rounding from cutting off what just touches.
        if (slope > 0) {
            t1 = Math.min(t1, bound / slope + 1e-9);
        } else if (slope < 0) {
            t0 = Math.max(t0, bound / slope - 1e-9);
        } else if (bound < 0) {
            return;
        }
        if (t0 <= t1 && begin < end && foundCount < most) {
            search(begin, end, t0, t1);
        }
    }

    private void test(int v) {
        if (foundCount < most && Segments.distance(xyz, v, from, to) <= reach) {
            if (foundCount == found.length) {
                found = Arrays.copyOf(found, 2 * foundCount);
            }
            found[foundCount++] = v;
        }
    }
}
