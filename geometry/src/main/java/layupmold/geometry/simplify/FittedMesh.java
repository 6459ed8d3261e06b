package layupmold.geometry.simplify;

import com.carrotsearch.hppc.IntArrayList;
import java.util.BitSet;
import java.util.function.IntToDoubleFunction;
import java.util.function.IntUnaryOperator;
import java.util.stream.IntStream;

/**
 * A mesh while it is brought closer to its target: what single edits read and write.
 *
 * @param labels one for each triangle
 * @param loose vertices that may be moved
 * @param weights how much a miss counts in triangles of a label, up to 1
 * @param misses greatest miss of each triangle as it was measured last, mm, times its weight
 * @param toleranceMm triangles that miss by no more are left alone
 */
record FittedMesh(HalfEdgeMesh mesh, IntArrayList labels, BitSet loose, IntToDoubleFunction weights,
        IntToDoubleFunction misses, TargetProbe probe, CrossingCheck crossings, double toleranceMm) {

    static final int[] NOTHING = {};
    /** Where more than this is missed, contouring takes over sooner or later: nothing there is worth a close look. */
    private static final double COARSE_MM = 0.1;
    /** What hides between a few points of a triangle is this small; a close look at larger ones costs far more. */
    private static final double FINE_MM = 0.5;
    /** Corners of two triangles: so few are looked at closely whatever their size. */
    private static final int PAIR = 6;
    /** New vertices go no farther. */
    static final double REACH_MM = 0.5;
    /** Borders between labels keep their course, but for small turns into creases. */
    static final double BORDER_REACH_MM = 0.15;
    /** An edit must leave this share of the miss at the most. */
    static final double GAIN = 0.7;

    double miss(int t) {
        return misses.applyAsDouble(t);
    }

    /** How much some triangles may miss after an edit: none more than the worst now, all together much less. */
    record Budget(double mostMm, double sumMm) {
        static final Budget NONE = new Budget(-1, -1);
    }

    Budget budget(int... triangles) {
        double most = IntStream.of(triangles).mapToDouble(misses).max().orElse(0);
        return new Budget(most, GAIN * IntStream.of(triangles).mapToDouble(misses).sum());
    }

    /** The same if the worst must miss by no more than {@code share} of what it does, however the others do. */
    Budget strictBudget(double share, int... triangles) {
        return new Budget(share * budget(triangles).mostMm, Double.POSITIVE_INFINITY);
    }

    /**
     * Greatest miss of new triangles, first at a few points, then under as close a look as the check takes.
     *
     * @param corners three a triangle
     * @param like for each new triangle one of the same label
     * @return mm times weight; infinite if that is over the budget
     */
    double miss(int[] corners, IntUnaryOperator like, Budget budget) {
        double quick = miss(corners, like, budget, (a, b, c, enough) -> probe.missAtMiddles(a, b, c));
        return quick == Double.POSITIVE_INFINITY || budget.mostMm > COARSE_MM ? quick
                : miss(corners, like, budget, (a, b, c, enough) -> corners.length > PAIR && probe.longest(a, b, c) > FINE_MM
                        ? probe.missAtMiddles(a, b, c) : probe.missOf(a, b, c, enough));
    }

    private interface Look {
        double missMm(int a, int b, int c, double enoughMm);
    }

    private double miss(int[] corners, IntUnaryOperator like, Budget budget, Look look) {
        double worst = 0;
        double sum = 0;
        for (int i = 0; i < corners.length; i += 3) {
            double weight = weight(like.applyAsInt(i / 3));
            double miss = weight * look.missMm(corners[i], corners[i + 1], corners[i + 2], budget.mostMm / weight);
            worst = Math.max(worst, miss);
            sum += miss;
            if (miss > budget.mostMm || sum > budget.sumMm) {
                return Double.POSITIVE_INFINITY;
            }
        }
        return worst;
    }

    /** Whether a triangle is small and no more than a little off: what the dearest edits are for. */
    boolean isFine(int t) {
        return miss(t) <= COARSE_MM && probe.longest(mesh.from(3 * t), mesh.from(3 * t + 1), mesh.from(3 * t + 2)) <= FINE_MM;
    }

    double weight(int t) {
        return weights.applyAsDouble(labels.get(t));
    }

    boolean isLabelBorder(int h) {
        int g = mesh.twin(h);
        return g >= 0 && labels.get(g / 3) != labels.get(h / 3);
    }

    /** Tells that triangles have changed. */
    int[] changed(int... triangles) {
        for (int t : triangles) {
            crossings.change(t);
        }
        return triangles;
    }
}
