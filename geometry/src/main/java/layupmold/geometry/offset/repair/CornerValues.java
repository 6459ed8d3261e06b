package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.LongIntHashMap;
import java.util.Arrays;

/**
 * The field at the corners of a region's cells, with sides that agree with the mesh kept around the region.
 *
 * <p>Where the region ends, the kept mesh says which grid edges the surface crosses; each such edge binds the sides of
 * its two ends to each other. Ends so bound are grouped (union-find with parity) and each group takes the sides that the
 * kept mesh's fronts say, or, where it has none, those that agree best with the field. What contradicts itself or the
 * field is handed back as trouble.
 */
final class CornerValues {

    private final long[] corners;
    private final LongIntHashMap indexOf;
    final double[] values;
    private final double[] mitred;
    private final boolean[] outside;
    private final boolean[] beyondBoundary;
    private final int[] parent;
    private final boolean[] flip;
    private final int[] votes;
    private final IntArrayList troubled = new IntArrayList();

    /** @param field remembers the field at corners that were asked for before */
    CornerValues(long[] cells, FieldAtCorners field) {
        corners = cornersOf(cells);
        indexOf = new LongIntHashMap(corners.length);
        for (int i = 0; i < corners.length; i++) {
            indexOf.put(corners[i], i);
        }
        values = new double[corners.length];
        mitred = new double[corners.length];
        outside = new boolean[corners.length];
        beyondBoundary = new boolean[corners.length];
        parent = new int[corners.length];
        flip = new boolean[corners.length];
        votes = new int[corners.length];
        Arrays.setAll(parent, i -> i);
        field.read(corners, values, mitred, beyondBoundary);
    }

    private static long[] cornersOf(long[] cells) {
        long[] all = new long[8 * cells.length];
        for (int i = 0; i < cells.length; i++) {
            for (int k = 0; k < 8; k++) {
                all[8 * i + k] = corner(cells[i], k);
            }
        }
        Arrays.parallelSort(all);
        int n = 0;
        for (int i = 0; i < all.length; i++) {
            if (i == 0 || all[i] != all[i - 1]) {
                all[n++] = all[i];
            }
        }
        return Arrays.copyOf(all, n);
    }

    /** Corner {@code k} of a cell; bit a of k is one step along axis a. */
    static long corner(long cell, int k) {
        return cell + (k & 1) * CellGrid.STEP[0] + (k >> 1 & 1) * CellGrid.STEP[1] + (k >> 2 & 1) * CellGrid.STEP[2];
    }

    int index(long corner) {
        return indexOf.get(corner);
    }

    boolean isOutside(long corner) {
        return outside[indexOf.get(corner)];
    }

    boolean isBeyondBoundary(long corner) {
        return beyondBoundary[indexOf.get(corner)];
    }

    /** Says that the kept mesh crosses (or does not cross) the grid edge between two corners. */
    void bind(long lower, long upper, boolean crossed) {
        int a = indexOf.get(lower);
        int b = indexOf.get(upper);
        if (beyondBoundary[a] || beyondBoundary[b]) {
            return;
        }
        int ra = root(a);
        int rb = root(b);
        boolean odd = parity(a) ^ parity(b) ^ crossed;
        if (ra != rb) {
            parent[Math.max(ra, rb)] = Math.min(ra, rb);
            flip[Math.max(ra, rb)] = odd;
        } else if (odd) {
            troubled.add(a);
        }
    }

    /** Says that the kept mesh crosses the grid edge between two corners, its front towards the upper or the lower. */
    void vote(long lower, long upper, boolean rising) {
        votes[indexOf.get(lower)] += rising ? -1 : 1;
        votes[indexOf.get(upper)] += rising ? 1 : -1;
    }

    private int root(int i) {
        int r = i;
        while (parent[r] != r) {
            r = parent[r];
        }
        return r;
    }

    private boolean parity(int i) {
        boolean odd = false;
        for (int r = i; parent[r] != r; r = parent[r]) {
            odd ^= flip[r];
        }
        return odd;
    }

    /**
     * Chooses all sides.
     *
     * @param tolerance how far, in mm, a bound side may contradict the field
     * @return corners where kept mesh and field cannot be reconciled
     */
    long[] settle(double tolerance) {
        double[] weight = new double[corners.length];
        int[] front = new int[corners.length];
        for (int i = 0; i < corners.length; i++) {
            if (!beyondBoundary[i]) {
                weight[root(i)] += parity(i) ? -values[i] : values[i];
                front[root(i)] += parity(i) ? -votes[i] : votes[i];
            }
        }
        for (int i = 0; i < corners.length; i++) {
            int r = root(i);
            outside[i] = (front[r] == 0 ? weight[r] > 0 : front[r] > 0) ^ parity(i);
            boolean contradicts = outside[i]
                    ? values[i] < -tolerance : Math.min(values[i], mitred[i]) > tolerance;
            if (contradicts && !beyondBoundary[i]) {
                troubled.add(i);
            }
        }
        return Arrays.stream(troubled.toArray()).mapToLong(i -> corners[i]).toArray();
    }
}
