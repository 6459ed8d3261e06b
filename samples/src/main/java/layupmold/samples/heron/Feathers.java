package layupmold.samples.heron;

import layupmold.geometry.shape.ScalarField;

/** Lays feather outlines as detail lines. */
final class Feathers {

    private static final double LINE_WIDTH_MM = 1.4;
    private static final double LINE_DEPTH_MM = 0.6;
    private static final double SHAFT_WIDTH_MM = 1.3;
    private static final double SHAFT_HEIGHT_MM = 0.4;
    private static final int STEPS = 24;

    private Feathers() {
    }

    /**
     * Overlapping feathers in staggered rows, tips towards −v.
     *
     * @param pitchMm width of a feather
     * @param rowMm distance of rows
     * @param sharpness exponent of the tip's outline: 1 pointed, 2 round
     * @param where positive where feathers may lie
     * @param box u and v range covered
     */
    static void rows(DetailLines lines, double pitchMm, double rowMm, double sharpness, ScalarField where,
            double[] box) {
        int rows = (int) Math.ceil((box[3] - box[1]) / rowMm);
        int columns = (int) Math.ceil(Math.max(-box[0], box[2]) / pitchMm) + 1;
        for (int row = 0; row <= rows; row++) {
            double v = box[3] - row * rowMm;
            double shift = row % 2 == 0 ? 0 : pitchMm / 2;
            for (int column = -columns; column <= columns; column++) {
                feather(lines, column * pitchMm + shift, v, pitchMm, rowMm, sharpness, where);
            }
        }
    }

    /** One U-shaped tip and the shaft up its middle. The arms end a little short of the neighbours' tips. */
    private static void feather(DetailLines lines, double u, double v, double pitch, double row, double sharpness,
            ScalarField where) {
        double[] tip = new double[2 * (STEPS + 1)];
        double arm = 1 - 2.2 * LINE_WIDTH_MM / pitch;
        for (int i = 0; i <= STEPS; i++) {
            double s = (2.0 * i / STEPS - 1) * arm;
            tip[2 * i] = u + s * pitch / 2;
            tip[2 * i + 1] = v - row * (1 - StrictMath.pow(Math.abs(s), sharpness));
        }
        lines.addWhere(tip, LINE_WIDTH_MM, LINE_DEPTH_MM, where);
        double[] shaft = {u, v + 0.15 * row, u, v - 0.72 * row};
        lines.addWhere(shaft, SHAFT_WIDTH_MM, -SHAFT_HEIGHT_MM, where);
    }
}
