package layupmold.geometry.face;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;

/** Wall thickness around each triangle: measured on walls, carried over to rims, ribs and corners from the nearest wall. */
final class LocalThickness {

    /** Deeper than this many typical thicknesses is no wall but a rib, a boss, or a look along the wall. */
    private static final double WALL_LIMIT = 3;
    private static final double FACING_COS = Math.cos(Math.toRadians(25));

    private LocalThickness() {
    }

    /** Thickness in mm by triangle; {@code typicalMm} where no wall is near. Breadth first, O(n). */
    static float[] of(EdgeTopology topology, Patches patches, WallSurvey survey, double typicalMm) {
        int[] ofTriangle = patches.ofTriangle();
        int n = ofTriangle.length;
        float[] thickness = new float[n];
        int[] queue = new int[n];
        int tail = 0;
        for (int t = 0; t < n; t++) {
            int p = ofTriangle[t];
            if (survey.isPaired(p) && survey.depthMm()[p] < WALL_LIMIT * typicalMm && survey.facing()[p] > FACING_COS) {
                thickness[t] = (float) survey.depthMm()[p];
                queue[tail++] = t;
            }
        }
        if (tail == 0) {
            Arrays.fill(thickness, (float) typicalMm);
            return thickness;
        }
        for (int i = 0; i < tail; i++) {
            for (int h = 3 * queue[i]; h < 3 * queue[i] + 3; h++) {
                int g = topology.twin(h);
                if (g >= 0 && thickness[g / 3] == 0) {
                    thickness[g / 3] = thickness[queue[i]];
                    queue[tail++] = g / 3;
                }
            }
        }
        for (int t = 0; t < n; t++) {
            if (thickness[t] == 0) {
                thickness[t] = (float) typicalMm;
            }
        }
        return thickness;
    }
}
