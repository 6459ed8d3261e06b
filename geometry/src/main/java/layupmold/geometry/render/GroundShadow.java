package layupmold.geometry.render;

import java.util.Arrays;
import java.util.List;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/**
 * The soft shadow that a scene throws on the level ground under it. The scene is taken as columns over a grid; the
 * ground's darkness is the share of a bowl of light directions that the columns cover.
 */
final class GroundShadow {

    private static final int CELLS = 120;
    private static final int DIRECTIONS = 64;
    private static final double MARGIN = 0.35;

    final double groundZ;

    private final double originX;
    private final double originY;
    private final double cell;
    private final int nx;
    private final int ny;
    private final float[] dark;
    /** Light that comes down flatter than this (run over drop) would throw shadows off the grid. */
    private final double steepest;

    GroundShadow(List<Item> items) {
        double[] box = Projection.bounds(items);
        double size = Math.max(1e-6, Math.max(box[3] - box[0], Math.max(box[4] - box[1], 0.5 * (box[5] - box[2]))));
        groundZ = box[2];
        cell = size / CELLS;
        steepest = MARGIN * size / Math.max(1e-6, box[5] - box[2]);
        originX = box[0] - MARGIN * size;
        originY = box[1] - MARGIN * size;
        nx = (int) Math.ceil((box[3] - box[0] + 2 * MARGIN * size) / cell) + 1;
        ny = (int) Math.ceil((box[4] - box[1] + 2 * MARGIN * size) / cell) + 1;
        float[] lowest = new float[nx * ny];
        float[] highest = new float[nx * ny];
        Arrays.fill(lowest, Float.POSITIVE_INFINITY);
        Arrays.fill(highest, Float.NEGATIVE_INFINITY);
        for (Item item : items) {
            raiseColumns(item.mesh(), lowest, highest);
        }
        dark = smoothed(smoothed(cast(lowest, highest)));
    }

    /** Darkness of the ground at a point, 0 (open) to 1. */
    double at(double x, double y) {
        double u = (x - originX) / cell - 0.5;
        double v = (y - originY) / cell - 0.5;
        if (!(u >= 0 && v >= 0 && u < nx - 1 && v < ny - 1)) {
            return 0;
        }
        int i = (int) u;
        int j = (int) v;
        double fu = u - i;
        double fv = v - j;
        double near = dark[j * nx + i] * (1 - fu) + dark[j * nx + i + 1] * fu;
        double far = dark[(j + 1) * nx + i] * (1 - fu) + dark[(j + 1) * nx + i + 1] * fu;
        return near * (1 - fv) + far * fv;
    }

    private void raiseColumns(TriangleMesh mesh, float[] lowest, float[] highest) {
        double[] xyz = mesh.xyz();
        int[] triangles = mesh.triangles();
        for (int t = 0; t < triangles.length; t += 3) {
            int a = 3 * triangles[t];
            int b = 3 * triangles[t + 1];
            int c = 3 * triangles[t + 2];
            double ab = planSpan(xyz, a, b);
            double bc = planSpan(xyz, b, c);
            double ca = planSpan(xyz, c, a);
            // Rays leave from the corner opposite the shortest side, so that slivers stay cheap.
            if (bc <= ab && bc <= ca) {
                raiseTriangle(xyz, a, b, c, Math.max(ab, ca), bc, lowest, highest);
            } else if (ca <= ab) {
                raiseTriangle(xyz, b, c, a, Math.max(ab, bc), ca, lowest, highest);
            } else {
                raiseTriangle(xyz, c, a, b, Math.max(bc, ca), ab, lowest, highest);
            }
        }
    }

    private static double planSpan(double[] xyz, int a, int b) {
        return Math.max(Math.abs(xyz[a] - xyz[b]), Math.abs(xyz[a + 1] - xyz[b + 1]));
    }

    /** Samples a triangle finely enough to touch every cell under it. */
    private void raiseTriangle(double[] xyz, int apex, int b, int c, double length, double width,
            float[] lowest, float[] highest) {
        int steps = Math.max(1, (int) Math.ceil(1.5 * length / cell));
        for (int i = 0; i <= steps; i++) {
            double along = (double) i / steps;
            int across = Math.max(1, (int) Math.ceil(1.5 * along * width / cell));
            for (int j = 0; j <= across; j++) {
                double v = along * j / across;
                double u = along - v;
                double w = 1 - along;
                int at = cellOf(w * xyz[apex] + u * xyz[b] + v * xyz[c],
                        w * xyz[apex + 1] + u * xyz[b + 1] + v * xyz[c + 1]);
                float z = (float) (w * xyz[apex + 2] + u * xyz[b + 2] + v * xyz[c + 2] - groundZ);
                lowest[at] = Math.min(lowest[at], z);
                highest[at] = Math.max(highest[at], z);
            }
        }
    }

    private int cellOf(double x, double y) {
        return (int) ((y - originY) / cell) * nx + (int) ((x - originX) / cell);
    }

    private float[] cast(float[] lowest, float[] highest) {
        boolean[][] covered = new boolean[DIRECTIONS][];
        Parallel.forRanges(DIRECTIONS, 1, (chunk, from, to) -> {
            double share = (chunk + 0.5) / DIRECTIONS;
            double slope = Math.min(Math.tan(Math.toRadians(68) * Math.sqrt(share)), steepest * Math.sqrt(share));
            double angle = chunk * Math.toRadians(137.50776405);
            covered[chunk] = castAlong(lowest, highest, slope * Math.cos(angle), slope * Math.sin(angle));
        });
        float[] out = new float[nx * ny];
        for (int d = 0; d < DIRECTIONS; d++) {
            // Fades towards the lowest light, so that the shadow has no rim; the weights add up to one.
            float weight = 2f * (DIRECTIONS - d - 0.5f) / (DIRECTIONS * DIRECTIONS);
            for (int k = 0; k < out.length; k++) {
                out[k] += covered[d][k] ? weight : 0;
            }
        }
        return out;
    }

    /** Cells that some column covers when light comes down with the given slopes (run over drop). */
    private boolean[] castAlong(float[] lowest, float[] highest, double slopeX, double slopeY) {
        boolean[] mask = new boolean[nx * ny];
        double run = Math.max(Math.abs(slopeX), Math.abs(slopeY));
        for (int j = 0; j < ny; j++) {
            for (int i = 0; i < nx; i++) {
                float low = lowest[j * nx + i];
                float high = highest[j * nx + i];
                if (low > high) {
                    continue;
                }
                int steps = Math.max(1, (int) Math.ceil((high - low) * run / cell));
                for (int s = 0; s <= steps; s++) {
                    double z = low + (high - low) * s / steps;
                    int x = (int) Math.floor(i + 0.5 + slopeX * z / cell);
                    int y = (int) Math.floor(j + 0.5 + slopeY * z / cell);
                    if (x >= 0 && y >= 0 && x < nx && y < ny) {
                        mask[y * nx + x] = true;
                    }
                }
            }
        }
        return mask;
    }

    private float[] smoothed(float[] in) {
        float[] out = new float[in.length];
        for (int j = 1; j < ny - 1; j++) {
            for (int i = 1; i < nx - 1; i++) {
                float sum = 0;
                for (int dj = -1; dj <= 1; dj++) {
                    for (int di = -1; di <= 1; di++) {
                        sum += in[(j + dj) * nx + i + di];
                    }
                }
                out[j * nx + i] = sum / 9;
            }
        }
        return out;
    }
}
