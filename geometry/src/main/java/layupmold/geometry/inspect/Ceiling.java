package layupmold.geometry.inspect;

import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * The highest corner over each cell of a grid in plan, over all triangles whose box touches the cell: a point above it
 * has nothing over it. O(triangles + cells they touch).
 */
final class Ceiling {

    private static final int CELLS = 1024;

    private final double originX;
    private final double originY;
    private final double perMm;
    private final int columns;
    private final int rows;
    private final double[] top;

    /** @param box bounds that hold the mesh, as {@link TriangleMesh#bounds} */
    Ceiling(TriangleMesh mesh, double[] box) {
        double cellMm = Math.max(box[3] - box[0], box[4] - box[1]) / CELLS;
        this.originX = box[0];
        this.originY = box[1];
        this.perMm = 1 / cellMm;
        this.columns = (int) ((box[3] - box[0]) * perMm) + 1;
        this.rows = (int) ((box[4] - box[1]) * perMm) + 1;
        this.top = new double[columns * rows];
        Arrays.fill(top, Double.NEGATIVE_INFINITY);
        double[] p = mesh.xyz();
        int[] corners = mesh.triangles();
        for (int i = 0; i < corners.length; i += 3) {
            raise(p, 3 * corners[i], 3 * corners[i + 1], 3 * corners[i + 2]);
        }
    }

    private void raise(double[] p, int a, int b, int c) {
        int x0 = column(Math.min(p[a], Math.min(p[b], p[c])));
        int x1 = column(Math.max(p[a], Math.max(p[b], p[c])));
        int y0 = row(Math.min(p[a + 1], Math.min(p[b + 1], p[c + 1])));
        int y1 = row(Math.max(p[a + 1], Math.max(p[b + 1], p[c + 1])));
        double z = Math.max(p[a + 2], Math.max(p[b + 2], p[c + 2]));
        for (int row = y0; row <= y1; row++) {
            for (int cell = row * columns + x0; cell <= row * columns + x1; cell++) {
                top[cell] = Math.max(top[cell], z);
            }
        }
    }

    private int column(double x) {
        return Math.max(0, Math.min(columns - 1, (int) ((x - originX) * perMm)));
    }

    private int row(double y) {
        return Math.max(0, Math.min(rows - 1, (int) ((y - originY) * perMm)));
    }

    /** Whether all that lies over (x, y) lies lower than z. */
    boolean isBelow(double x, double y, double z) {
        return top[row(y) * columns + column(x)] < z;
    }
}
