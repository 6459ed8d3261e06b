package layupmold.geometry.drape;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;

/** Connected patches of cells that shear past the locking angle. */
final class LockedPatches {

    /** A smaller place is worked in with the thumbs (common practice, no source). */
    private static final double SMALLEST_MM2 = 100;

    private final DrapeNet net;
    private final double lockingDeg;
    private final Set<Long> seen = new HashSet<>();

    private LockedPatches(DrapeNet net, double lockingDeg) {
        this.net = net;
        this.lockingDeg = lockingDeg;
    }

    /**
     * The largest patch of each quarter between the threads through the start, as cells (i, j); patches small enough to
     * be worked in by hand are left out. O(nodes).
     */
    static List<List<int[]>> largestByQuarter(DrapeNet net, double lockingDeg) {
        LockedPatches search = new LockedPatches(net, lockingDeg);
        List<List<int[]>> largest = new ArrayList<>();
        for (int quarter = 0; quarter < 4; quarter++) {
            largest.add(List.of());
        }
        for (int node = 0; node < net.nodeCount(); node++) {
            int i = net.i(node);
            int j = net.j(node);
            if (search.isLocked(i, j) && search.seen.add(DrapeNet.key(i, j))) {
                List<int[]> patch = search.patch(i, j);
                int quarter = quarter(i, j);
                if (patch.size() > largest.get(quarter).size()) {
                    largest.set(quarter, patch);
                }
            }
        }
        double cellMm2 = net.stepMm() * net.stepMm();
        return largest.stream().filter(patch -> patch.size() * cellMm2 >= SMALLEST_MM2).toList();
    }

    private static int quarter(int i, int j) {
        return (i >= 0 ? 1 : 0) + (j >= 0 ? 2 : 0);
    }

    private boolean isLocked(int i, int j) {
        return Math.abs(net.cellShearDeg(i, j)) > lockingDeg
                && (net.isOnSheet(i, j) || net.isOnSheet(i + 1, j) || net.isOnSheet(i, j + 1)
                || net.isOnSheet(i + 1, j + 1));
    }

    /** Within the first cell's quarter. */
    private List<int[]> patch(int i, int j) {
        List<int[]> cells = new ArrayList<>();
        ArrayDeque<int[]> open = new ArrayDeque<>();
        open.add(new int[] {i, j});
        while (!open.isEmpty()) {
            int[] cell = open.poll();
            cells.add(cell);
            for (int di = -1; di <= 1; di++) {
                for (int dj = -1; dj <= 1; dj++) {
                    int ni = cell[0] + di;
                    int nj = cell[1] + dj;
                    if (quarter(ni, nj) == quarter(i, j) && isLocked(ni, nj) && seen.add(DrapeNet.key(ni, nj))) {
                        open.add(new int[] {ni, nj});
                    }
                }
            }
        }
        return cells;
    }
}
