package layupmold.geometry.bvh;

import com.carrotsearch.hppc.IntArrayList;
import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/**
 * Finds the pairs of triangles of one mesh that cross or touch outside the vertices and edges they share.
 *
 * <p>Exact on the given coordinates. Expected O(n log n + k) for k box-overlapping pairs, on all threads; the answer
 * does not depend on their number.
 */
public final class SelfIntersections {

    private static final int GRAIN = 1 << 12;

    private SelfIntersections() {
    }

    /**
     * @param limit stop looking once this many pairs are known in one range of the search
     * @return triangle pairs {t0, u0, t1, u1, …} with t &lt; u, sorted; empty if the mesh is free of self-intersection
     */
    public static int[] find(TriangleMesh mesh, TriangleBvh bvh, int limit) {
        int[][] parts = new int[Parallel.chunkCount(bvh.leafCount, GRAIN)][];
        Parallel.forRanges(bvh.leafCount, GRAIN, (chunk, from, to) -> {
            // Leaves and grain are powers of two: each range is all that lies below one node.
            parts[chunk] = new NodePairs(mesh, bvh, limit).involving(parts.length - 1 + chunk);
        });
        return merge(parts);
    }

    /** The same with a hierarchy of its own. */
    public static int[] find(TriangleMesh mesh, int limit) {
        return find(mesh, TriangleBvh.of(mesh), limit);
    }

    /**
     * As {@link #find}, but only pairs with at least one triangle of index {@code first} or more. Needs no hierarchy of
     * the others: cheap where those are few.
     */
    public static int[] findInvolving(TriangleMesh mesh, int first, int limit) {
        int[] corners = mesh.triangles();
        TriangleBvh involved = TriangleBvh.of(
                new TriangleMesh(mesh.xyz(), Arrays.copyOfRange(corners, 3 * first, corners.length)));
        int n = mesh.triangleCount();
        int[][] parts = new int[Parallel.chunkCount(n, GRAIN)][];
        Parallel.forRanges(n, GRAIN, (chunk, from, to) -> {
            IntArrayList pairs = new IntArrayList();
            for (int t = from; t < to && pairs.size() < 2 * limit; t++) {
                against(mesh, t, involved, first, pairs, 2 * limit);
            }
            parts[chunk] = pairs.toArray();
        });
        return merge(parts);
    }

    private static void against(
            TriangleMesh mesh, int t, TriangleBvh involved, int first, IntArrayList pairs, int most) {
        double[] xyz = mesh.xyz();
        int[] corners = mesh.triangles();
        int a = 3 * corners[3 * t];
        int b = 3 * corners[3 * t + 1];
        int c = 3 * corners[3 * t + 2];
        involved.overlapping(xyz, a, b, c, other -> {
            int u = first + other;
            if (t < u && TriangleOverlap.test(xyz, a, b, c,
                    3 * corners[3 * u], 3 * corners[3 * u + 1], 3 * corners[3 * u + 2])) {
                pairs.add(t, u);
            }
            return pairs.size() < most;
        });
    }

    /** Whether two triangles, given by their vertices, meet outside the vertices and edges they share. Exact. */
    public static boolean meet(double[] xyz, int a0, int a1, int a2, int b0, int b1, int b2) {
        return TriangleOverlap.test(xyz, 3 * a0, 3 * a1, 3 * a2, 3 * b0, 3 * b1, 3 * b2);
    }

    private static int[] merge(int[][] parts) {
        long[] keys = Arrays.stream(parts).flatMapToLong(part -> {
            long[] packed = new long[part.length / 2];
            for (int i = 0; i < packed.length; i++) {
                packed[i] = (long) part[2 * i] << 32 | part[2 * i + 1];
            }
            return Arrays.stream(packed);
        }).sorted().toArray();
        int[] pairs = new int[2 * keys.length];
        for (int i = 0; i < keys.length; i++) {
            pairs[2 * i] = (int) (keys[i] >>> 32);
            pairs[2 * i + 1] = (int) keys[i];
        }
        return pairs;
    }
}
