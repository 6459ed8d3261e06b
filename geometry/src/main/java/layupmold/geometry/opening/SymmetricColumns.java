package layupmold.geometry.opening;

import java.util.Arrays;
import org.ejml.data.DMatrixSparseCSC;

/** Collects a symmetric sparse matrix column by column, adding up entries that meet. */
final class SymmetricColumns {

    private final int[] start;
    private int[] row;
    private double[] value;
    private int column;
    private int size;
    /** Where in the current column a row is kept, plus one. */
    private final int[] slot;

    SymmetricColumns(int n) {
        start = new int[n + 1];
        slot = new int[n];
        row = new int[24 * n + 16];
        value = new double[24 * n + 16];
    }

    void add(int i, double x) {
        if (slot[i] == 0) {
            if (size == row.length) {
                row = Arrays.copyOf(row, 2 * size);
                value = Arrays.copyOf(value, 2 * size);
            }
            row[size] = i;
            value[size] = 0;
            slot[i] = ++size;
        }
        value[slot[i] - 1] += x;
    }

    void endColumn() {
        for (int i = start[column]; i < size; i++) {
            slot[row[i]] = 0;
        }
        start[++column] = size;
    }

    int[] start() {
        return start;
    }

    int[] rows() {
        return row;
    }

    /** The matrix with row and column {@code order[i]} moved to place i. */
    DMatrixSparseCSC permuted(int[] order) {
        int n = order.length;
        int[] place = new int[n];
        for (int i = 0; i < n; i++) {
            place[order[i]] = i;
        }
        DMatrixSparseCSC matrix = new DMatrixSparseCSC(n, n, size);
        int at = 0;
        for (int j = 0; j < n; j++) {
            int from = start[order[j]];
            int to = start[order[j] + 1];
            long[] keys = new long[to - from];
            for (int i = from; i < to; i++) {
                keys[i - from] = (long) place[row[i]] << 32 | i;
            }
            Arrays.sort(keys);
            for (long key : keys) {
                matrix.nz_rows[at] = (int) (key >> 32);
                matrix.nz_values[at++] = value[(int) key];
            }
            matrix.col_idx[j + 1] = at;
        }
        matrix.nz_length = at;
        matrix.indicesSorted = true;
        return matrix;
    }
}
