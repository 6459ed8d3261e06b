package layupmold.geometry.drape;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * What to cut where the cloth shears past its locking angle.
 *
 * <p>A dart takes out what the locked cloth has too much of: across a row of cells, cloth locked at γ covers per cell a
 * width in proportion to sin((90° − γ)/2), so a row that would have to close further must lose the difference.
 */
final class Relief {

    private final DrapeNet net;
    private final double lockingDeg;

    Relief(DrapeNet net, double lockingDeg) {
        this.net = net;
        this.lockingDeg = lockingDeg;
    }

    private boolean isLocked(int i, int j) {
        return Math.abs(net.cellShearDeg(i, j)) > lockingDeg
                && (net.isOnSheet(i, j) || net.isOnSheet(i + 1, j) || net.isOnSheet(i, j + 1)
                || net.isOnSheet(i + 1, j + 1));
    }

    /** One dart a connected patch of locked cells, in the order the net was laid. O(nodes). */
    List<DrapedPly.Dart> darts() {
        List<DrapedPly.Dart> darts = new ArrayList<>();
        Set<Long> seen = new HashSet<>();
        for (int node = 0; node < net.nodeCount(); node++) {
            int i = net.i(node);
            int j = net.j(node);
            if (isLocked(i, j) && seen.add(DrapeNet.key(i, j))) {
                DrapedPly.Dart dart = dart(patch(i, j, seen));
                if (dart != null) {
                    darts.add(dart);
                }
            }
        }
        return darts;
    }

    private List<int[]> patch(int i, int j, Set<Long> seen) {
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
                    if (isLocked(ni, nj) && seen.add(DrapeNet.key(ni, nj))) {
                        open.add(new int[] {ni, nj});
                    }
                }
            }
        }
        return cells;
    }

    /** From the patch's row nearest the start to its farthest, as wide as the most that one row must lose. */
    private DrapedPly.Dart dart(List<int[]> cells) {
        TreeMap<Integer, double[]> rows = new TreeMap<>();
        double least = Math.sin(Math.toRadians((90 - lockingDeg) / 2));
        for (int[] cell : cells) {
            double shear = Math.abs(net.cellShearDeg(cell[0], cell[1]));
            double lose = Math.sqrt(2) * net.stepMm() * (1 - Math.sin(Math.toRadians((90 - shear) / 2)) / least);
            double[] row = rows.computeIfAbsent(ring(cell), r -> new double[4]);
            row[0] += cell[0] + 0.5;
            row[1] += cell[1] + 0.5;
            row[2] += lose;
            row[3]++;
        }
        double width = rows.values().stream().mapToDouble(row -> row[2]).max().orElse(0);
        double[] first = rows.firstEntry().getValue();
        double[] last = rows.lastEntry().getValue();
        double d = net.stepMm();
        if (rows.size() < 2 || width < d / 10) {
            return null;
        }
        return new DrapedPly.Dart(d * first[0] / first[3], d * first[1] / first[3], d * last[0] / last[3],
                d * last[1] / last[3], width);
    }

    private static int ring(int[] cell) {
        return (int) (Math.abs(cell[0] + 0.5) + Math.abs(cell[1] + 0.5));
    }

    /** Lays both halves of the ply cut along the warp and along the weft through its flat middle; the better cut. */
    static DrapedPly.Split split(ToolSheet sheet, double[] uv, DrapeSpec spec) {
        DrapedPly.Split best = null;
        for (boolean alongWarp : new boolean[] {true, false}) {
            int axis = alongWarp ? 1 : 0;
            double at = middle(uv, axis);
            double locked = 0;
            for (int side = -1; side <= 1; side += 2) {
                locked += lockedMm2(half(sheet, uv, axis, at, side), spec);
            }
            double share = locked / sheet.areaMm2();
            if (best == null || share < best.lockedShare()) {
                best = new DrapedPly.Split(alongWarp, at, share);
            }
        }
        return best;
    }

    private static double middle(double[] uv, int axis) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int k = axis; k < uv.length; k += 2) {
            if (!Double.isNaN(uv[k])) {
                low = Math.min(low, uv[k]);
                high = Math.max(high, uv[k]);
            }
        }
        return (low + high) / 2;
    }

    private static ToolSheet half(ToolSheet sheet, double[] uv, int axis, double at, int side) {
        int[] all = sheet.mesh().triangles();
        int[] kept = new int[all.length];
        int size = 0;
        for (int t = 0; t < all.length; t += 3) {
            double centre = (uv[2 * all[t] + axis] + uv[2 * all[t + 1] + axis] + uv[2 * all[t + 2] + axis]) / 3;
            if (side * (centre - at) > 0) {
                System.arraycopy(all, t, kept, size, 3);
                size += 3;
            }
        }
        return ToolSheet.of(new TriangleMesh(sheet.mesh().xyz(), Arrays.copyOf(kept, size)));
    }

    private static double lockedMm2(ToolSheet half, DrapeSpec spec) {
        if (half.mesh().triangleCount() == 0) {
            return 0;
        }
        Vector3d middle = new Vector3d();
        for (int t = 0; t < half.mesh().triangleCount(); t++) {
            middle.add(half.mesh().centroid(t));
        }
        StartSearch.Start start = StartSearch.at(half, middle.div(half.mesh().triangleCount()));
        double step = Math.sqrt(half.areaMm2()) / 24;
        DrapeNet net = NetGrowth.grow(half, start.triangle(), start.point(),
                StartSearch.planDirection(spec.warpAngleDeg()), step, 20_000);
        double locked = 0;
        for (int node = 0; node < net.nodeCount(); node++) {
            double shear = net.cellShearDeg(net.i(node), net.j(node));
            if (net.isOnSheet(net.i(node), net.j(node)) && Math.abs(shear) > spec.lockingDeg()) {
                locked += step * step * Math.cos(Math.toRadians(shear));
            }
        }
        return locked;
    }
}
