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

    /** Area of each region of labelled triangles, 0 of others; O(n). */
    double[] areas(boolean[] label, double[] areas) {
        double[] area = new double[count];
        for (int t = 0; t < label.length; t++) {
            area[ofTriangle[t]] += label[t] ? areas[t] : 0;
        }
        return area;
    }

    /** The lowest triangle of region {@code r}; O(n). */
    int first(int r) {
        int t = 0;
        while (ofTriangle[t] != r) {
            t++;
        }
        return t;
    }

    /** The labelled triangles in their largest region; O(n). */
    static boolean[] mainPiece(EdgeTopology topology, boolean[] label, double[] areas) {
        LabelRegions regions = of(topology, label);
        int largest = largest(regions.areas(label, areas));
        boolean[] piece = new boolean[label.length];
        for (int t = 0; t < piece.length; t++) {
            piece[t] = regions.ofTriangle[t] == largest;
        }
        return piece;
    }

    /** The first of the largest. */
    static int largest(double[] area) {
        int best = 0;
        for (int r = 1; r < area.length; r++) {
            best = area[r] > area[best] ? r : best;
        }
        return best;
    }
}
