package layupmold.geometry.body;

import com.carrotsearch.hppc.IntArrayDeque;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.parallel.Parallel;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Location;

/**
 * Distances from a sheet at the nodes of a grid around and below it, and which nodes are void: farther than a level and
 * reached from below. The sheet must keep the void from its other side as far as the plan reaches.
 *
 * <p>Blocks of nodes that lie wholly nearer or farther than the level take one query; O(nodes / 64 + nodes near the
 * level, times log n).
 */
final class DistanceGrid {

    private static final int BLOCK = 4;
    private static final int MOST_NODES = 16_000_000;
    private static final double COARSER = 1.2;

    final double step;
    final double x0;
    final double y0;
    final double z0;
    final int nx;
    final int ny;
    final int nz;
    /** Capped at twice the level. */
    final float[] distance;
    final boolean[] isVoid;
    /** Whether the column of nodes lies inside the plan. */
    final boolean[] inPlan;
    private final double level;

    /**
     * @param box of the sheet
     * @param plan where there are nodes
     * @param finest wanted step; coarser if there would be too many nodes
     */
    DistanceGrid(TriangleBvh sheet, double[] box, Geometry plan, double level, double finest) {
        this.level = level;
        double size = finest;
        while ((box[3] - box[0]) / size * ((box[4] - box[1]) / size) * ((box[5] - box[2] + level) / size) > MOST_NODES) {
            size *= COARSER;
        }
        step = size;
        x0 = box[0];
        y0 = box[1];
        // A plug's border is its lowest place: nodes just on the plane below would be now inside, now outside.
        z0 = box[2] - level - 2.5 * step;
        nx = 1 + (int) Math.ceil((box[3] - x0) / step);
        ny = 1 + (int) Math.ceil((box[4] - y0) / step);
        nz = 1 + (int) Math.ceil((box[5] - z0) / step);
        distance = new float[nx * ny * nz];
        isVoid = new boolean[distance.length];
        inPlan = new boolean[nx * ny];
        locate(plan);
        measure(sheet);
        flood();
    }

    int node(int i, int j, int k) {
        return (k * ny + j) * nx + i;
    }

    private void locate(Geometry plan) {
        IndexedPointInAreaLocator locator = new IndexedPointInAreaLocator(plan);
        Parallel.forRanges(ny, 1, (chunk, from, to) -> {
            for (int j = from; j < to; j++) {
                for (int i = 0; i < nx; i++) {
                    inPlan[j * nx + i] =
                            locator.locate(new Coordinate(x0 + i * step, y0 + j * step)) == Location.INTERIOR;
                }
            }
        });
    }

    private void measure(TriangleBvh sheet) {
        int bx = (nx + BLOCK - 1) / BLOCK;
        int by = (ny + BLOCK - 1) / BLOCK;
        int bz = (nz + BLOCK - 1) / BLOCK;
        Parallel.forRanges(bz * by, 1, (chunk, from, to) -> {
            NearestPoint nearest = new NearestPoint();
            for (int row = from; row < to; row++) {
                for (int b = 0; b < bx; b++) {
                    measureBlock(sheet, b * BLOCK, row % by * BLOCK, row / by * BLOCK, nearest);
                }
            }
        });
    }

    private void measureBlock(TriangleBvh sheet, int i0, int j0, int k0, NearestPoint nearest) {
        if (!touchesPlan(i0, j0)) {
            return;
        }
        double half = (BLOCK - 1) * step / 2;
        double radius = half * Math.sqrt(3);
        double middle = query(sheet, x0 + i0 * step + half, y0 + j0 * step + half, z0 + k0 * step + half,
                2 * level + radius, nearest);
        boolean near = Math.abs(middle - level) <= radius + Math.sqrt(3) * step;
        double most = Math.min(2 * level, middle + radius);
        for (int k = k0; k < Math.min(nz, k0 + BLOCK); k++) {
            for (int j = j0; j < Math.min(ny, j0 + BLOCK); j++) {
                for (int i = i0; i < Math.min(nx, i0 + BLOCK); i++) {
                    distance[node(i, j, k)] = !near ? (float) (middle < level ? 0 : 2 * level)
                            : (float) query(sheet, x0 + i * step, y0 + j * step, z0 + k * step, most, nearest);
                }
            }
        }
    }

    private boolean touchesPlan(int i0, int j0) {
        for (int j = j0; j < Math.min(ny, j0 + BLOCK); j++) {
            for (int i = i0; i < Math.min(nx, i0 + BLOCK); i++) {
                if (inPlan[j * nx + i]) {
                    return true;
                }
            }
        }
        return false;
    }

    private static double query(TriangleBvh sheet, double x, double y, double z, double most, NearestPoint nearest) {
        sheet.nearest(x, y, z, most, nearest);
        return nearest.triangle < 0 ? most : nearest.distance();
    }

    /** From the lowest nodes through neighbours along the axes. */
    private void flood() {
        IntArrayDeque queue = new IntArrayDeque();
        for (int j = 0; j < ny; j++) {
            for (int i = 0; i < nx; i++) {
                enter(i, j, 0, queue);
            }
        }
        while (!queue.isEmpty()) {
            int node = queue.removeFirst();
            int i = node % nx;
            int j = node / nx % ny;
            int k = node / nx / ny;
            enter(i - 1, j, k, queue);
            enter(i + 1, j, k, queue);
            enter(i, j - 1, k, queue);
            enter(i, j + 1, k, queue);
            enter(i, j, k - 1, queue);
            enter(i, j, k + 1, queue);
        }
    }

    private void enter(int i, int j, int k, IntArrayDeque queue) {
        if (i < 0 || j < 0 || k < 0 || i == nx || j == ny || k == nz || !inPlan[j * nx + i]) {
            return;
        }
        int node = node(i, j, k);
        if (!isVoid[node] && distance[node] > level) {
            isVoid[node] = true;
            queue.addLast(node);
        }
    }
}
