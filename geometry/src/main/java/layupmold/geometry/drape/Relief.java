package layupmold.geometry.drape;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.IntPredicate;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * What to cut where the cloth shears past its locking angle.
 *
 * <p>A dart takes out what the locked cloth has too much of: across a row of cells, cloth locked at γ covers per cell a
 * width in proportion to sin((90° − γ)/2), so a row that would have to close further must lose the difference. Darts are
 * not laid again: in a pin-jointed net every node follows from the two threads through the start, whatever is cut out
 * between them. A split gives each piece threads of its own, and both are laid again.
 */
final class Relief {

    /** A smaller place is worked in with the thumbs (common practice, no source). */
    private static final double SMALLEST_MM2 = 100;
    private static final double[] CUTS = {0.25, 1 / 3.0, 0.5, 2 / 3.0, 0.75};
    private static final int LINKS = 24;

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
        if (rows.size() < 2 || width < d / 10 || cells.size() * d * d < SMALLEST_MM2) {
            return null;
        }
        return new DrapedPly.Dart(d * first[0] / first[3], d * first[1] / first[3], d * last[0] / last[3],
                d * last[1] / last[3], width);
    }

    private static int ring(int[] cell) {
        return (int) (Math.abs(cell[0] + 0.5) + Math.abs(cell[1] + 0.5));
    }

    /** Lays both pieces of the ply cut along a thread, at several threads of warp and weft; the best cut. */
    static DrapedPly.Split split(ToolSheet sheet, double[] located, DrapeSpec spec) {
        double[] uv = filled(sheet, located);
        DrapedPly.Split best = null;
        for (boolean alongWarp : new boolean[] {true, false}) {
            int axis = alongWarp ? 1 : 0;
            double[] extent = extent(uv, axis);
            for (double share : CUTS) {
                double at = extent[0] + share * (extent[1] - extent[0]);
                double locked = lockedMm2(side(sheet, uv, axis, at, -1), spec)
                        + lockedMm2(side(sheet, uv, axis, at, 1), spec);
                double lockedShare = locked / sheet.areaMm2();
                if (best == null || lockedShare < best.lockedShare() - 1e-9) {
                    best = new DrapedPly.Split(alongWarp, at, lockedShare);
                }
            }
        }
        return best;
    }

    /** What no cloth reached belongs to the piece that reached the nearest corner beside it. */
    private static double[] filled(ToolSheet sheet, double[] located) {
        double[] uv = located.clone();
        int[] triangles = sheet.mesh().triangles();
        boolean changed = true;
        while (changed) {
            changed = false;
            for (int h = 0; h < triangles.length; h++) {
                int v = triangles[h];
                int w = triangles[EdgeTopology.next(h)];
                if (Double.isNaN(uv[2 * v]) != Double.isNaN(uv[2 * w])) {
                    int known = Double.isNaN(uv[2 * v]) ? w : v;
                    int unknown = known == v ? w : v;
                    uv[2 * unknown] = uv[2 * known];
                    uv[2 * unknown + 1] = uv[2 * known + 1];
                    changed = true;
                }
            }
        }
        return uv;
    }

    private static double[] extent(double[] uv, int axis) {
        double low = Double.POSITIVE_INFINITY;
        double high = Double.NEGATIVE_INFINITY;
        for (int k = axis; k < uv.length; k += 2) {
            if (!Double.isNaN(uv[k])) {
                low = Math.min(low, uv[k]);
                high = Math.max(high, uv[k]);
            }
        }
        return new double[] {low, high};
    }

    private static ToolSheet side(ToolSheet sheet, double[] uv, int axis, double at, int side) {
        return kept(sheet, t -> side * (centre(sheet, uv, t, axis) - at) > 0);
    }

    private static double centre(ToolSheet sheet, double[] uv, int t, int axis) {
        int[] all = sheet.mesh().triangles();
        return (uv[2 * all[3 * t] + axis] + uv[2 * all[3 * t + 1] + axis] + uv[2 * all[3 * t + 2] + axis]) / 3;
    }

    private static ToolSheet kept(ToolSheet sheet, IntPredicate keep) {
        int[] all = sheet.mesh().triangles();
        int[] kept = new int[all.length];
        int size = 0;
        for (int t = 0; t < all.length / 3; t++) {
            if (keep.test(t)) {
                System.arraycopy(all, 3 * t, kept, size, 3);
                size += 3;
            }
        }
        return ToolSheet.of(new TriangleMesh(sheet.mesh().xyz(), Arrays.copyOf(kept, size)));
    }

    /** Laid from its own middle. */
    private static double lockedMm2(ToolSheet piece, DrapeSpec spec) {
        if (piece.mesh().triangleCount() == 0) {
            return 0;
        }
        Vector3d middle = new Vector3d();
        for (int t = 0; t < piece.mesh().triangleCount(); t++) {
            middle.add(piece.mesh().centroid(t));
        }
        return lockedMm2(piece, StartSearch.at(piece, middle.div(piece.mesh().triangleCount())), spec);
    }

    private static double lockedMm2(ToolSheet piece, StartSearch.Start start, DrapeSpec spec) {
        double step = Math.sqrt(piece.areaMm2()) / LINKS;
        DrapeNet net = NetGrowth.sketch(piece, start.triangle(), start.point(),
                StartSearch.planDirection(spec.warpAngleDeg()), step, 40 * LINKS * LINKS);
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
