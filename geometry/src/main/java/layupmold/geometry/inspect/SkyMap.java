package layupmold.geometry.inspect;

import java.util.Arrays;

/**
 * The solid seen from above: for every cell of a grid in plan the height of the topmost surface, kept only where that
 * surface carries cloth. Answers which such place at or below a height is nearest in plan.
 *
 * <p>Cells are grouped in blocks with their least height, so that a query skips blocks that are too high or too far.
 * Built in O(triangles + cells).
 */
final class SkyMap {

    private static final int CELLS = 768;
    private static final int BLOCK = 16;

    private final double originX;
    private final double originY;
    private final double cellMm;
    private final int columns;
    private final int rows;
    private final double[] height;
    private final boolean[] cloth;
    private final int blockColumns;
    private final int blockRows;
    private final double[] blockLeast;

    SkyMap(MeasuredSolid solid) {
        double[] box = solid.mesh().bounds();
        this.cellMm = Math.max(box[3] - box[0], box[4] - box[1]) / CELLS;
        this.originX = box[0];
        this.originY = box[1];
        this.columns = (int) Math.ceil((box[3] - box[0]) / cellMm) + 1;
        this.rows = (int) Math.ceil((box[4] - box[1]) / cellMm) + 1;
        this.height = new double[columns * rows];
        this.cloth = new boolean[columns * rows];
        Arrays.fill(height, Double.NEGATIVE_INFINITY);
        for (int t = 0; t < solid.mesh().triangleCount(); t++) {
            if (solid.normals()[3 * t + 2] > 0) {
                draw(solid, t);
            }
        }
        this.blockColumns = (columns + BLOCK - 1) / BLOCK;
        this.blockRows = (rows + BLOCK - 1) / BLOCK;
        this.blockLeast = new double[blockColumns * blockRows];
        Arrays.fill(blockLeast, Double.POSITIVE_INFINITY);
        for (int i = 0; i < height.length; i++) {
            int b = i / columns / BLOCK * blockColumns + i % columns / BLOCK;
            if (cloth[i]) {
                blockLeast[b] = Math.min(blockLeast[b], height[i]);
            }
        }
    }

    double cellMm() {
        return cellMm;
    }

    private void draw(MeasuredSolid solid, int t) {
        double[] p = solid.mesh().xyz();
        int a = 3 * solid.mesh().triangles()[3 * t];
        int b = 3 * solid.mesh().triangles()[3 * t + 1];
        int c = 3 * solid.mesh().triangles()[3 * t + 2];
        double nx = solid.normals()[3 * t];
        double ny = solid.normals()[3 * t + 1];
        double nz = solid.normals()[3 * t + 2];
        int x0 = index(Math.min(p[a], Math.min(p[b], p[c])) - originX);
        int x1 = (int) Math.floor((Math.max(p[a], Math.max(p[b], p[c])) - originX) / cellMm - 0.5);
        int y0 = index(Math.min(p[a + 1], Math.min(p[b + 1], p[c + 1])) - originY);
        int y1 = (int) Math.floor((Math.max(p[a + 1], Math.max(p[b + 1], p[c + 1])) - originY) / cellMm - 0.5);
        boolean carries = solid.carriesCloth(t);
        for (int row = y0; row <= y1; row++) {
            double y = originY + (row + 0.5) * cellMm;
            for (int column = x0; column <= x1; column++) {
                double x = originX + (column + 0.5) * cellMm;
                if (left(p, a, b, x, y) >= 0 && left(p, b, c, x, y) >= 0 && left(p, c, a, x, y) >= 0) {
                    double z = p[a + 2] - (nx * (x - p[a]) + ny * (y - p[a + 1])) / nz;
                    int cell = row * columns + column;
                    if (z > height[cell]) {
                        height[cell] = z;
                        cloth[cell] = carries;
                    }
                }
            }
        }
    }

    private int index(double fromOrigin) {
        return Math.max(0, (int) Math.ceil(fromOrigin / cellMm - 0.5));
    }

    private static double left(double[] p, int a, int b, double x, double y) {
        return (p[b] - p[a]) * (y - p[a + 1]) - (p[b + 1] - p[a + 1]) * (x - p[a]);
    }

    /**
     * Distance in plan from (x, y) to the nearest cell under open sky whose surface carries cloth and lies at or below
     * z, or infinity.
     *
     * @param found receives x and y of that cell's centre
     */
    double nearest(double x, double y, double z, double[] found) {
        double best = Double.POSITIVE_INFINITY;
        int bx = Math.max(0, Math.min(blockColumns - 1, (int) ((x - originX) / cellMm / BLOCK)));
        int by = Math.max(0, Math.min(blockRows - 1, (int) ((y - originY) / cellMm / BLOCK)));
        int rings = Math.max(blockColumns, blockRows);
        for (int ring = 0; ring < rings && (ring - 1) * BLOCK * cellMm < best; ring++) {
            for (int row = Math.max(0, by - ring); row <= Math.min(blockRows - 1, by + ring); row++) {
                boolean edge = Math.abs(row - by) == ring;
                for (int column = bx - ring; column <= bx + ring; column += edge || ring == 0 ? 1 : 2 * ring) {
                    if (column >= 0 && column < blockColumns && blockLeast[row * blockColumns + column] <= z) {
                        best = nearestInBlock(column, row, x, y, z, best, found);
                    }
                }
            }
        }
        return best;
    }

    private double nearestInBlock(
            int blockColumn, int blockRow, double x, double y, double z, double best, double[] found) {
        double least = best;
        for (int row = blockRow * BLOCK; row < Math.min(rows, (blockRow + 1) * BLOCK); row++) {
            double dy = originY + (row + 0.5) * cellMm - y;
            for (int column = blockColumn * BLOCK; column < Math.min(columns, (blockColumn + 1) * BLOCK); column++) {
                int cell = row * columns + column;
                if (cloth[cell] && height[cell] <= z) {
                    double dx = originX + (column + 0.5) * cellMm - x;
                    double d = Math.sqrt(dx * dx + dy * dy);
                    if (d < least) {
                        least = d;
                        found[0] = x + dx;
                        found[1] = y + dy;
                    }
                }
            }
        }
        return least;
    }
}
