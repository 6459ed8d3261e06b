package layupmold.geometry.bvh;

import java.util.Arrays;
import java.util.function.IntConsumer;
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
        return findInvolving(mesh, bvh, 0, limit);
    }

    /** As {@link #find}, but only pairs with at least one triangle of index {@code first} or more. */
    public static int[] findInvolving(TriangleMesh mesh, TriangleBvh bvh, int first, int limit) {
        int[][] parts = new int[Parallel.chunkCount(bvh.leafCount, GRAIN)][];
        Parallel.forRanges(bvh.leafCount, GRAIN, (chunk, from, to) -> {
            Search search = new Search(mesh, bvh, first, limit);
            for (int leaf = from; leaf < to && search.size < 2 * limit; leaf++) {
                search.against(leaf);
            }
            parts[chunk] = Arrays.copyOf(search.pairs, search.size);
        });
        return merge(parts);
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

    /** Pairs of one leaf of the hierarchy with itself and others, each pair of triangles from one side only. */
    private static final class Search implements IntConsumer {
        private final double[] xyz;
        private final int[] triangles;
        private final TriangleBvh bvh;
        private final int first;
        private final int limit;
        private int[] pairs = new int[16];
        private int size;
        private int current;

        Search(TriangleMesh mesh, TriangleBvh bvh, int first, int limit) {
            this.xyz = mesh.xyz();
            this.triangles = mesh.triangles();
            this.bvh = bvh;
            this.first = first;
            this.limit = limit;
        }

        void against(int leaf) {
            current = leaf;
            if (first == 0) {
                accept(leaf);
                bvh.overlappingLaterLeaves(leaf, this);
            } else if (isInvolved(leaf)) {
                bvh.overlappingLeaves(leaf, this);
            }
        }

        private boolean isInvolved(int leaf) {
            for (int i = bvh.leafStart(leaf); i < bvh.leafStart(leaf + 1); i++) {
                if (bvh.order()[i] >= first) {
                    return true;
                }
            }
            return false;
        }

        @Override
        public void accept(int leaf) {
            int[] order = bvh.order();
            for (int i = bvh.leafStart(current); i < bvh.leafStart(current + 1); i++) {
                for (int k = bvh.leafStart(leaf); k < bvh.leafStart(leaf + 1) && size < 2 * limit; k++) {
                    boolean asked = order[i] >= first && (order[k] < first || i < k);
                    if (asked && !bvh.areApart(i, k) && meet(order[i], order[k])) {
                        add(order[i], order[k]);
                    }
                }
            }
        }

        private boolean meet(int t, int u) {
            return SelfIntersections.meet(xyz, triangles[3 * t], triangles[3 * t + 1], triangles[3 * t + 2],
                    triangles[3 * u], triangles[3 * u + 1], triangles[3 * u + 2]);
        }

        private void add(int t, int u) {
            if (size + 2 > pairs.length) {
                pairs = Arrays.copyOf(pairs, 2 * pairs.length);
            }
            pairs[size++] = Math.min(t, u);
            pairs[size++] = Math.max(t, u);
        }
    }
}
