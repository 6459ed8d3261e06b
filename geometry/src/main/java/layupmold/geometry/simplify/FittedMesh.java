package layupmold.geometry.simplify;

import com.carrotsearch.hppc.IntArrayList;
import java.util.BitSet;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;

/**
 * A mesh while it is brought closer to its target: what single edits read and write.
 *
 * @param labels one for each triangle
 * @param loose vertices that may be moved
 * @param misses greatest miss of each triangle as it was measured last, mm
 * @param toleranceMm triangles that miss by no more are left alone
 */
record FittedMesh(HalfEdgeMesh mesh, IntArrayList labels, BitSet loose, IntToDoubleFunction misses, TargetProbe probe,
        CrossingCheck crossings, double toleranceMm) {

    static final int[] NOTHING = {};
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
     * Greatest miss of new triangles, three corners each; infinite if that is over the budget.
     */
    double miss(int[] corners, Budget budget) {
        double sum = 0;
        for (int i = 0; i < corners.length; i += 3) {
            double miss = probe.missAtMiddles(corners[i], corners[i + 1], corners[i + 2]);
            sum += miss;
            if (miss > budget.mostMm || sum > budget.sumMm) {
                return Double.POSITIVE_INFINITY;
            }
        }
        sum = 0;
        double worst = 0;
        for (int i = 0; i < corners.length; i += 3) {
            double miss = probe.missOf(corners[i], corners[i + 1], corners[i + 2], budget.mostMm);
            worst = Math.max(worst, miss);
            sum += miss;
            if (miss > budget.mostMm || sum > budget.sumMm) {
                return Double.POSITIVE_INFINITY;
            }
        }
        return worst;
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
