package layupmold.geometry.pull;

import org.joml.Vector3d;

/** Which way round an axis is the pull: the part sits in the mold like a bowl, its mouth towards the pull. */
final class BowlSense {

    private static final int CELLS = 24;

    private BowlSense() {
    }

    /**
     * Mean height of the outline above the mean height of the whole, over the outline's width, both along {@code axis}:
     * positive if the part opens that way, near 0 for a flat or saddle-shaped one.
     */
    static double mouth(SurfaceSamples samples, Vector3d axis) {
        Vector3d u = new Vector3d(Math.abs(axis.x) < 0.6 ? 1 : 0, Math.abs(axis.x) < 0.6 ? 0 : 1, 0)
                .cross(axis).normalize();
        Vector3d v = new Vector3d(axis).cross(u);
        double[] range = range(samples, u, v);
        double width = Math.max(range[2] - range[0], range[3] - range[1]);
        int side = CELLS + 2;
        double[] height = new double[side * side];
        int[] count = new int[side * side];
        for (int i = 0; i < samples.count(); i++) {
            int x = 1 + Math.min(CELLS - 1, (int) ((dot(samples, i, u) - range[0]) / width * CELLS));
            int y = 1 + Math.min(CELLS - 1, (int) ((dot(samples, i, v) - range[1]) / width * CELLS));
            height[y * side + x] += dot(samples, i, axis);
            count[y * side + x]++;
        }
        boolean[] outside = outside(count, side);
        double all = 0;
        double rim = 0;
        int cells = 0;
        int rimCells = 0;
        for (int y = 1; y <= CELLS; y++) {
            for (int x = 1; x <= CELLS; x++) {
                int c = y * side + x;
                if (count[c] == 0) {
                    continue;
                }
                all += height[c] / count[c];
                cells++;
                if (outside[c - 1] || outside[c + 1] || outside[c - side] || outside[c + side]) {
                    rim += height[c] / count[c];
                    rimCells++;
                }
            }
        }
        return (rim / rimCells - all / cells) / width;
    }

    private static double[] range(SurfaceSamples samples, Vector3d u, Vector3d v) {
        double[] range = {Double.MAX_VALUE, Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        for (int i = 0; i < samples.count(); i++) {
            double a = dot(samples, i, u);
            double b = dot(samples, i, v);
            range[0] = Math.min(range[0], a);
            range[1] = Math.min(range[1], b);
            range[2] = Math.max(range[2], a);
            range[3] = Math.max(range[3], b);
        }
        return range;
    }

    private static double dot(SurfaceSamples samples, int i, Vector3d d) {
        double[] p = samples.position();
        return p[3 * i] * d.x + p[3 * i + 1] * d.y + p[3 * i + 2] * d.z;
    }

    /** Empty cells that connect to the border of the grid: not those inside an opening. */
    private static boolean[] outside(int[] count, int side) {
        boolean[] outside = new boolean[count.length];
        int[] queue = new int[count.length];
        outside[0] = true;
        int tail = 1;
        for (int i = 0; i < tail; i++) {
            int c = queue[i];
            int x = c % side;
            int y = c / side;
            tail = visit(x > 0, c - 1, count, outside, queue, tail);
            tail = visit(x < side - 1, c + 1, count, outside, queue, tail);
            tail = visit(y > 0, c - side, count, outside, queue, tail);
            tail = visit(y < side - 1, c + side, count, outside, queue, tail);
        }
        return outside;
    }

    private static int visit(boolean inside, int c, int[] count, boolean[] outside, int[] queue, int tail) {
        if (inside && count[c] == 0 && !outside[c]) {
            outside[c] = true;
            queue[tail] = c;
            return tail + 1;
        }
        return tail;
    }
}
