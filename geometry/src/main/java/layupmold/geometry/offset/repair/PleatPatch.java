package layupmold.geometry.offset.repair;

import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.PolygonSplits;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * The triangulation of a gap in a mesh, over its own corners, that turns least where it turns most, and of those the
 * one of least area (Liepa, "Filling holes in meshes", 2003). O(n³) for n corners.
 */
final class PleatPatch {

    /** Turns that differ by less, as 1 - cosine, are the same. */
    private static final double SAME_TURN = 0.05;
    /** No triangle may be thinner. */
    private static final double FLAT_MM = 1e-4;

    private final double[] xyz;
    private final Vector3d[] outside;
    private final Set<Long> joined;
    private final int n;
    private final double[] turn;
    private final double[] area;
    private final int[] middle;

    private PleatPatch(double[] xyz, Vector3d[] outside, Set<Long> joined) {
        this.xyz = xyz;
        this.outside = outside;
        this.joined = joined;
        n = xyz.length / 3;
        turn = new double[n * n];
        area = new double[n * n];
        middle = new int[n * n];
    }

    /**
     * @param loop half-edges around the gap, what is to be replaced on their left
     * @param leastCosine between triangles side by side, those around the gap too
     * @return vertices of the patch, three a triangle; null if every one turns more somewhere
     */
    static int[] of(TriangleMesh mesh, EdgeTopology edges, int[] loop, double leastCosine) {
        int n = loop.length;
        double[] xyz = new double[3 * n];
        Vector3d[] outside = new Vector3d[n];
        for (int i = 0; i < n; i++) {
            System.arraycopy(mesh.xyz(), 3 * edges.from(loop[i]), xyz, 3 * i, 3);
            outside[i] = mesh.areaNormal(edges.twin(loop[i]) / 3);
        }
        PleatPatch patch = new PleatPatch(xyz, outside, joinedOutside(edges, loop));
        patch.weigh();
        if (!(patch.turn[n - 1] <= 1 - leastCosine)) {
            return null;
        }
        int[] triangles = PolygonSplits.triangles(n, patch.middle);
        for (int i = 0; i < triangles.length; i++) {
            triangles[i] = edges.from(loop[triangles[i]]);
        }
        return triangles;
    }

    /** Pairs of corners with an edge between them that stays. */
    private static Set<Long> joinedOutside(EdgeTopology edges, int[] loop) {
        Map<Integer, Integer> corner = new HashMap<>();
        for (int i = 0; i < loop.length; i++) {
            corner.put(edges.from(loop[i]), i);
        }
        Set<Long> joined = new HashSet<>();
        for (int i = 0; i < loop.length; i++) {
            // From the side before the corner to the side after it, over the triangles outside.
            int before = loop[(i + loop.length - 1) % loop.length];
            int h = edges.twin(loop[i]);
            while (h >= 0 && h != before) {
                int leaving = EdgeTopology.next(h);
                Integer k = corner.get(edges.to(leaving));
                if (k != null) {
                    joined.add(key(i, k));
                }
                h = edges.twin(leaving);
            }
        }
        return joined;
    }

    private static long key(int i, int j) {
        return (long) Math.min(i, j) << 32 | Math.max(i, j);
    }

    private void weigh() {
        for (int span = 2; span < n; span++) {
            for (int i = 0; i + span < n; i++) {
                int k = i + span;
                int at = i * n + k;
                turn[at] = Double.POSITIVE_INFINITY;
                boolean closing = i == 0 && k == n - 1;
                if (!closing && joined.contains(key(i, k))) {
                    continue;
                }
                for (int j = i + 1; j < k; j++) {
                    weigh(i, j, k, closing);
                }
            }
        }
    }

    private void weigh(int i, int j, int k, boolean closing) {
        int at = i * n + k;
        double below = Math.max(turn[i * n + j], turn[j * n + k]);
        if (below > turn[at] + SAME_TURN || below == Double.POSITIVE_INFINITY) {
            return;
        }
        Vector3d normal = normal(i, j, k);
        double longest = Math.max(at(i).distance(at(j)), Math.max(at(j).distance(at(k)), at(k).distance(at(i))));
        if (normal.length() < FLAT_MM * longest) {
            return;
        }
        double most = Math.max(below, Math.max(between(normal, i, j), between(normal, j, k)));
        if (closing) {
            most = Math.max(most, turnOf(normal, outside[n - 1]));
        }
        double sum = area[i * n + j] + area[j * n + k] + normal.length();
        if (most < turn[at] - SAME_TURN || most < turn[at] + SAME_TURN && sum < area[at]) {
            turn[at] = most;
            area[at] = sum;
            middle[at] = j;
        }
    }

    /** Turn across the side from corner i to corner j, from what lies beyond it. */
    private double between(Vector3d normal, int i, int j) {
        return turnOf(normal, j == i + 1 ? outside[i] : normal(i, middle[i * n + j], j));
    }

    /** Of flat triangles around the gap nothing is known. */
    private static double turnOf(Vector3d a, Vector3d b) {
        double lengths = a.length() * b.length();
        return lengths > 0 ? 1 - a.dot(b) / lengths : 0;
    }

    private Vector3d normal(int i, int j, int k) {
        Vector3d a = at(i);
        return at(j).sub(a).cross(at(k).sub(a));
    }

    private Vector3d at(int i) {
        return new Vector3d(xyz[3 * i], xyz[3 * i + 1], xyz[3 * i + 2]);
    }
}
