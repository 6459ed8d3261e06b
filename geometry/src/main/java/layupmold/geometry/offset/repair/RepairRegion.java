package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.LongHashSet;
import com.carrotsearch.hppc.cursors.LongCursor;
import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;

/** A set of grid cells with coarser copies of itself, so that large boxes are quickly known to hold none of them. */
final class RepairRegion {

    private static final int LEVELS = 12;

    private final CellGrid grid;
    private final LongHashSet[] levels = new LongHashSet[LEVELS];

    RepairRegion(CellGrid grid) {
        this.grid = grid;
        for (int i = 0; i < LEVELS; i++) {
            levels[i] = new LongHashSet();
        }
    }

    boolean contains(long cell) {
        return levels[0].contains(cell);
    }

    int size() {
        return levels[0].size();
    }

    boolean add(long cell) {
        if (!levels[0].add(cell)) {
            return false;
        }
        int i = CellGrid.component(cell, 0);
        int j = CellGrid.component(cell, 1);
        int k = CellGrid.component(cell, 2);
        for (int level = 1; level < LEVELS; level++) {
            if (!levels[level].add(CellGrid.key(i >> level, j >> level, k >> level))) {
                break;
            }
        }
        return true;
    }

    /** Says which places of a triangle need their cells in the set. */
    @FunctionalInterface
    interface Place {
        boolean needsRepair(double x, double y, double z);
    }

    /**
     * Adds all cells within {@code reach} cells of those parts of triangle {@code t} that need repair, looked at in
     * pieces no longer than a cell.
     *
     * @return whether there are any
     */
    boolean cover(TriangleMesh mesh, int t, int reach, Place place) {
        int[] corners = mesh.triangles();
        double[] p = new double[9];
        for (int k = 0; k < 3; k++) {
            System.arraycopy(mesh.xyz(), 3 * corners[3 * t + k], p, 3 * k, 3);
        }
        return cover(p, reach, place);
    }

    /** Adds all cells within {@code reach} cells of the segment whose ends stand at {@code from} in {@code ends}. */
    void coverSegment(double[] ends, int from, int reach) {
        double[] p = new double[9];
        System.arraycopy(ends, from, p, 0, 6);
        System.arraycopy(ends, from + 3, p, 6, 3);
        cover(p, reach, (x, y, z) -> true);
    }

    private boolean cover(double[] p, int reach, Place place) {
        int longest = 0;
        double length = 0;
        for (int k = 0; k < 3; k++) {
            int a = 3 * k;
            int b = 3 * ((k + 1) % 3);
            double d = Math.sqrt((p[a] - p[b]) * (p[a] - p[b]) + (p[a + 1] - p[b + 1]) * (p[a + 1] - p[b + 1])
                    + (p[a + 2] - p[b + 2]) * (p[a + 2] - p[b + 2]));
            if (d > length) {
                length = d;
                longest = k;
            }
        }
        if (length <= grid.size) {
            return coverPiece(p, reach, place);
        }
        double[] lower = p.clone();
        double[] upper = p.clone();
        int a = 3 * longest;
        int b = 3 * ((longest + 1) % 3);
        for (int i = 0; i < 3; i++) {
            double middle = (p[a + i] + p[b + i]) / 2;
            lower[b + i] = middle;
            upper[a + i] = middle;
        }
        return cover(lower, reach, place) | cover(upper, reach, place);
    }

    private boolean coverPiece(double[] p, int reach, Place place) {
        double x = (p[0] + p[3] + p[6]) / 3;
        double y = (p[1] + p[4] + p[7]) / 3;
        double z = (p[2] + p[5] + p[8]) / 3;
        boolean needed = place.needsRepair(x, y, z);
        for (int k = 0; k < 9 && !needed; k += 3) {
            needed = place.needsRepair(p[k], p[k + 1], p[k + 2]);
        }
        if (needed) {
            coverPoint(x, y, z, reach);
        }
        return needed;
    }

    /** Adds all cells within {@code reach} cells of a point. */
    void coverPoint(double x, double y, double z, int reach) {
        int i = grid.index(x, 0);
        int j = grid.index(y, 1);
        int k = grid.index(z, 2);
        for (int dk = -reach; dk <= reach; dk++) {
            for (int dj = -reach; dj <= reach; dj++) {
                for (int di = -reach; di <= reach; di++) {
                    add(CellGrid.key(i + di, j + dj, k + dk));
                }
            }
        }
    }

    /** False if no cell of the set lies in the closed index box; true if one may. */
    boolean mayMeet(int i0, int j0, int k0, int i1, int j1, int k1) {
        int extent = Math.max(i1 - i0, Math.max(j1 - j0, k1 - k0));
        int level = Math.min(LEVELS - 1, 32 - Integer.numberOfLeadingZeros(extent));
        LongHashSet cells = levels[level];
        for (int k = k0 >> level; k <= k1 >> level; k++) {
            for (int j = j0 >> level; j <= j1 >> level; j++) {
                for (int i = i0 >> level; i <= i1 >> level; i++) {
                    if (cells.contains(CellGrid.key(i, j, k))) {
                        return true;
                    }
                }
            }
        }
        return false;
    }

    /** All cells, ascending by key. */
    long[] sortedCells() {
        long[] cells = new long[levels[0].size()];
        int n = 0;
        for (LongCursor cursor : levels[0]) {
            cells[n++] = cursor.value;
        }
        Arrays.parallelSort(cells);
        return cells;
    }
}
