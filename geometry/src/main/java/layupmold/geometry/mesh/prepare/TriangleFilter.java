package layupmold.geometry.mesh.prepare;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeGroups;
import layupmold.geometry.mesh.EdgeTopology;

/** Finds triangles that say nothing: those that use a vertex twice, and repeats of an earlier one. */
final class TriangleFilter {

    private TriangleFilter() {
    }

    /** True for each triangle whose three vertices differ; O(n). */
    static boolean[] proper(int[] triangles) {
        boolean[] proper = new boolean[triangles.length / 3];
        for (int t = 0; t < proper.length; t++) {
            int a = triangles[3 * t];
            int b = triangles[3 * t + 1];
            int c = triangles[3 * t + 2];
            proper[t] = a != b && b != c && c != a;
        }
        return proper;
    }

    /**
     * True for each triangle that is the first with its three vertices, whichever way it faces.
     *
     * <p>Repeats share all three edges, so they are found among each edge's triangles; O(n) where edges are not crowded,
     * O(n log n) at worst.
     */
    static boolean[] first(int[] triangles, EdgeGroups groups) {
        boolean[] first = new boolean[triangles.length / 3];
        Arrays.fill(first, true);
        int[] mate = groups.mate();
        for (int t = 0; t < first.length; t++) {
            int s = mate[3 * t] < 0 ? -1 : mate[3 * t] / 3;
            if (s >= 0 && s < t && mate[3 * t + 1] / 3 == s && mate[3 * t + 2] / 3 == s
                    && mate[3 * t + 1] >= 0 && mate[3 * t + 2] >= 0) {
                first[t] = false;
            }
        }
        for (int[] group : groups.crowded()) {
            long[] byApex = new long[group.length];
            for (int i = 0; i < group.length; i++) {
                byApex[i] = (long) triangles[EdgeTopology.previous(group[i])] << 32 | group[i];
            }
            Arrays.sort(byApex);
            for (int i = 1; i < byApex.length; i++) {
                if (byApex[i] >> 32 == byApex[i - 1] >> 32) {
                    first[(int) byApex[i] / 3] = false;
                }
            }
        }
        return first;
    }

    static int count(boolean[] flags) {
        int count = 0;
        for (boolean flag : flags) {
            count += flag ? 1 : 0;
        }
        return count;
    }
}
