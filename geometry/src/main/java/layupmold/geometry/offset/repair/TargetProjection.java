package layupmold.geometry.offset.repair;

import java.util.Arrays;
import layupmold.geometry.parallel.Parallel;

/**
 * Moves vertices that miss the offset surface by little onto it: where more than three planes meet, no point lies at
 * the offset from all of them, but one lies at the offset from the face.
 */
final class TargetProjection {

    private static final int GRAIN = 1 << 8;
    /** Vertices this near stay: the planes they stand for say more than rounding. */
    private static final double LEAST_MISS_MM = 0.002;
    /** Planes missed by less cannot put a triangle off by what matters. */
    private static final double PLANE_MISS_MM = 0.005;
    /** Farther off, something else is wrong. */
    private static final double REACH_MM = 0.4;

    private TargetProjection() {
    }

    /**
     * Projects moved vertices along the field's gradient, in place; O(n log n).
     *
     * @param folded vertices that stay: what lies nearest to them may be another sheet
     * @return which vertices missed by more than rounding, or are mitred so that some triangle there may
     */
    static boolean[] project(double[] moved, boolean[] folded, OffsetField field) {
        boolean[] missed = new boolean[moved.length / 3];
        Parallel.forRanges(missed.length, GRAIN, (chunk, from, to) -> {
            OffsetField.Sample sample = new OffsetField.Sample();
            for (int v = from; v < to; v++) {
                field.at(moved[3 * v], moved[3 * v + 1], moved[3 * v + 2], sample);
                boolean off = Math.abs(sample.miss()) > LEAST_MISS_MM;
                // At the offset from one triangle it may be nearer to others' planes, which are then missed away from it.
                missed[v] = off || sample.value > LEAST_MISS_MM
                        || field.planeMiss(v, moved[3 * v], moved[3 * v + 1], moved[3 * v + 2]) > PLANE_MISS_MM;
                if (off && !folded[v] && !sample.beyondBoundary) {
                    double[] p = Arrays.copyOfRange(moved, 3 * v, 3 * v + 3);
                    field.project(p, REACH_MM, sample);
                    System.arraycopy(p, 0, moved, 3 * v, 3);
                }
            }
        });
        return missed;
    }

    /**
     * Where the vertices of a surface go when those that may move are projected onto the offset.
     *
     * @param loose which vertices may move
     */
    static double[] settle(double[] xyz, boolean[] loose, OffsetField field) {
        double[] places = xyz.clone();
        Parallel.forRanges(loose.length, GRAIN, (chunk, from, to) -> {
            OffsetField.Sample sample = new OffsetField.Sample();
            for (int v = from; v < to; v++) {
                if (!loose[v]) {
                    continue;
                }
                double[] p = Arrays.copyOfRange(xyz, 3 * v, 3 * v + 3);
                field.at(p[0], p[1], p[2], sample);
                if (Math.abs(sample.miss()) > LEAST_MISS_MM && field.project(p, REACH_MM, sample)) {
                    System.arraycopy(p, 0, places, 3 * v, 3);
                }
            }
        });
        return places;
    }
}
