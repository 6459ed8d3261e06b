package layupmold.samples.heron;

/**
 * A uniform cubic B-spline of several values at once, reaching its first and last control values. It stays within the
 * range of its neighbours' control values, so it never overshoots.
 */
final class ControlCurve {

    private final double[][] rows;

    /** @param rows control values, one row a knot, at least two rows */
    ControlCurve(double[][] rows) {
        this.rows = rows;
    }

    double end() {
        return rows.length - 1;
    }

    /** Values at {@code t} between 0 and {@link #end}; beyond, the curve goes on straight. */
    void at(double t, double[] out) {
        int i = (int) Math.max(0, Math.min(rows.length - 2, Math.floor(t)));
        double s = t - i;
        double w0 = (1 - s) * (1 - s) * (1 - s) / 6;
        double w1 = (3 * s * s * s - 6 * s * s + 4) / 6;
        double w2 = (-3 * s * s * s + 3 * s * s + 3 * s + 1) / 6;
        double w3 = s * s * s / 6;
        for (int k = 0; k < out.length; k++) {
            out[k] = w0 * value(i - 1, k) + w1 * value(i, k) + w2 * value(i + 1, k) + w3 * value(i + 2, k);
        }
    }

    /** Beyond its ends the polygon is continued straight, which makes the curve pass through the end values. */
    private double value(int row, int k) {
        if (row < 0) {
            return 2 * rows[0][k] - rows[1][k];
        }
        if (row >= rows.length) {
            return 2 * rows[rows.length - 1][k] - rows[rows.length - 2][k];
        }
        return rows[row][k];
    }
}
