package layupmold.geometry.face;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;

/**
 * Connected regions of equally labelled triangles, numbered by their lowest triangle.
 *
 * @param count number of regions
 * @param ofTriangle region of each triangle
 */
record LabelRegions(int count, int[] ofTriangle) {

    /** O(n). */
    static LabelRegions of(EdgeTopology topology, boolean[] label) {
        int n = label.length;
        int[] region = new int[n];
        Arrays.fill(region, -1);
        int[] queue = new int[n];
        int count = 0;
        for (int first = 0; first < n; first++) {
            if (region[first] >= 0) {
                continue;
            }
            region[first] = count;
            queue[0] = first;
            int tail = 1;
            for (int i = 0; i < tail; i++) {
                for (int h = 3 * queue[i]; h < 3 * queue[i] + 3; h++) {
                    int g = topology.twin(h);
                    if (g >= 0 && region[g / 3] < 0 && label[g / 3] == label[first]) {
                        region[g / 3] = count;
                        queue[tail++] = g / 3;
                    }
                }
            }
            count++;
        }
        return new LabelRegions(count, region);
    }

    /** The region of labelled triangles that has the largest area, as labels; O(n). */
    static boolean[] largest(EdgeTopology topology, boolean[] label, double[] areas) {
        LabelRegions regions = of(topology, label);
        double[] area = new double[regions.count];
        int best = 0;
        for (int t = 0; t < label.length; t++) {
            int r = regions.ofTriangle[t];
            area[r] += label[t] ? areas[t] : 0;
            best = area[r] > area[best] ? r : best;
        }
        boolean[] main = new boolean[label.length];
        for (int t = 0; t < label.length; t++) {
            main[t] = label[t] && regions.ofTriangle[t] == best;
        }
        return main;
    }
}
