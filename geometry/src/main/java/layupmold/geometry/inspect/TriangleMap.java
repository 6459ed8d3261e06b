package layupmold.geometry.inspect;

import java.util.Arrays;
import java.util.function.DoubleBinaryOperator;
import java.util.function.IntPredicate;
import layupmold.geometry.mesh.EdgeTopology;

/** Spreads what was measured at samples over all triangles, for pictures. */
final class TriangleMap {

    private TriangleMap() {
    }

    /**
     * One value a triangle: that of its samples, combined, or of the nearest sampled triangle counted in edges crossed.
     *
     * @param samples where
     * @param values one a sample, NaN for none
     * @param combine joins the values of one triangle's samples (usually least or greatest)
     * @param include triangles to fill; the others stay NaN
     * @return O(triangles + samples)
     */
    static float[] of(SurfaceSamples samples, double[] values, DoubleBinaryOperator combine, EdgeTopology topology,
            IntPredicate include) {
        int n = topology.halfEdgeCount() / 3;
        float[] map = new float[n];
        Arrays.fill(map, Float.NaN);
        int[] queue = new int[n];
        int size = 0;
        for (int s = 0; s < samples.count(); s++) {
            int t = samples.triangle[s];
            if (Double.isNaN(values[s])) {
                continue;
            }
            if (Float.isNaN(map[t])) {
                map[t] = (float) values[s];
                queue[size++] = t;
            } else {
                map[t] = (float) combine.applyAsDouble(map[t], values[s]);
            }
        }
        for (int i = 0; i < size; i++) {
            for (int h = 3 * queue[i]; h < 3 * queue[i] + 3; h++) {
                int other = topology.twin(h) / 3;
                if (topology.twin(h) >= 0 && Float.isNaN(map[other]) && include.test(other)) {
                    map[other] = map[queue[i]];
                    queue[size++] = other;
                }
            }
        }
        return map;
    }
}
