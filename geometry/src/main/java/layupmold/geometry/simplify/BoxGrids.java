package layupmold.geometry.simplify;

import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.LongObjectHashMap;
import com.carrotsearch.hppc.cursors.ObjectCursor;
import java.util.ArrayList;
import java.util.List;
import java.util.function.IntPredicate;

/**
 * Numbers with boxes, to be found by boxes that meet theirs. Each goes into a hashed grid whose cells are about as large as
 * its box, so that long ones are in few cells; O(1) to add, O(grids) and what is near to look up.
 */
final class BoxGrids {

    private static final double LEAST_CELL_MM = 1;
    private static final int BITS = 21;
    private static final long MASK = (1L << BITS) - 1;

    /** Cell of the i-th is {@code LEAST_CELL_MM} times two to the i. */
    private final List<LongObjectHashMap<IntArrayList>> grids = new ArrayList<>();

    /** Adds a number with its box: least and greatest x, y and z in mm. */
    void add(int number, double[] low, double[] high) {
        double extent = Math.max(high[0] - low[0], Math.max(high[1] - low[1], high[2] - low[2]));
        int level = 0;
        while (size(level) < extent) {
            level++;
        }
        while (grids.size() <= level) {
            grids.add(new LongObjectHashMap<>());
        }
        LongObjectHashMap<IntArrayList> grid = grids.get(level);
        double size = size(level);
        for (int i = cell(low[0], size); i <= cell(high[0], size); i++) {
            for (int j = cell(low[1], size); j <= cell(high[1], size); j++) {
                for (int k = cell(low[2], size); k <= cell(high[2], size); k++) {
                    listAt(grid, key(i, j, k)).add(number);
                }
            }
        }
    }

    private static IntArrayList listAt(LongObjectHashMap<IntArrayList> grid, long key) {
        int at = grid.indexOf(key);
        if (grid.indexExists(at)) {
            return grid.indexGet(at);
        }
        IntArrayList list = new IntArrayList();
        grid.indexInsert(at, key, list);
        return list;
    }

    /** Whether a number is wanted whose box may meet another; some are asked for more than once. */
    boolean anyNear(double[] low, double[] high, IntPredicate wanted) {
        for (int level = 0; level < grids.size(); level++) {
            if (anyNear(grids.get(level), size(level), low, high, wanted)) {
                return true;
            }
        }
        return false;
    }

    private static boolean anyNear(
            LongObjectHashMap<IntArrayList> grid, double size, double[] low, double[] high, IntPredicate wanted) {
        double cells = 1;
        for (int k = 0; k < 3; k++) {
            cells *= 1.0 + cell(high[k], size) - cell(low[k], size);
        }
        if (cells > grid.size()) {
            for (ObjectCursor<IntArrayList> list : grid.values()) {
                if (any(list.value, wanted)) {
                    return true;
                }
            }
            return false;
        }
        for (int i = cell(low[0], size); i <= cell(high[0], size); i++) {
            for (int j = cell(low[1], size); j <= cell(high[1], size); j++) {
                for (int k = cell(low[2], size); k <= cell(high[2], size); k++) {
                    if (any(grid.get(key(i, j, k)), wanted)) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

    private static boolean any(IntArrayList list, IntPredicate wanted) {
        for (int i = 0; list != null && i < list.size(); i++) {
            if (wanted.test(list.get(i))) {
                return true;
            }
        }
        return false;
    }

    private static double size(int level) {
        return LEAST_CELL_MM * (1L << level);
    }

    private static int cell(double mm, double size) {
        return (int) Math.floor(mm / size);
    }

    private static long key(int i, int j, int k) {
        return i & MASK | (j & MASK) << BITS | (k & MASK) << 2 * BITS;
    }
}
