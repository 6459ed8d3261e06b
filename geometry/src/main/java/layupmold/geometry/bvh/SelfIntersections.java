package layupmold.geometry.bvh;

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
     * @param limit stop looking once about this many pairs are known in one range of the search
     * @return triangle pairs {t0, u0, t1, u1, …} with t &lt; u, sorted; empty if the mesh is free of self-intersection
     */
    public static int[] find(TriangleMesh mesh, TriangleBvh bvh, int limit) {
        return findInvolving(mesh, bvh, 0, limit);
    }

    /** As {@link #find}, but only pairs with at least one triangle of index {@code first} or more. */
    public static int[] findInvolving(TriangleMesh mesh, TriangleBvh bvh, int first, int limit) {
        int n = mesh.triangleCount();
        int[][] parts = new int[Parallel.chunkCount(n, GRAIN)][];
        int[] order = bvh.order();
        Parallel.forRanges(n, GRAIN, (chunk, from, to) -> {
            Search search = new Search(mesh, bvh, first, limit);
            for (int i = from; i < to && search.size < 2 * limit; i++) {
                if (order[i] >= first) {
                    search.against(order[i]);
                }
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

    private static final class Search implements TriangleBvh.TriangleVisitor {
        private final double[] xyz;
        private final int[] triangles;
        private final TriangleBvh bvh;
        private final int first;
        private final int limit;
        private int[] pairs = new int[16];
        private int size;
        private int current;
        private int a0;
        private int a1;
        private int a2;
        private double minX;
        private double minY;
        private double minZ;
        private double maxX;
        private double maxY;
        private double maxZ;

        Search(TriangleMesh mesh, TriangleBvh bvh, int first, int limit) {
            this.xyz = mesh.xyz();
            this.triangles = mesh.triangles();
            this.bvh = bvh;
            this.first = first;
            this.limit = limit;
        }

        void against(int t) {
            current = t;
            a0 = 3 * triangles[3 * t];
            a1 = 3 * triangles[3 * t + 1];
            a2 = 3 * triangles[3 * t + 2];
            minX = Math.min(xyz[a0], Math.min(xyz[a1], xyz[a2]));
            minY = Math.min(xyz[a0 + 1], Math.min(xyz[a1 + 1], xyz[a2 + 1]));
            minZ = Math.min(xyz[a0 + 2], Math.min(xyz[a1 + 2], xyz[a2 + 2]));
            maxX = Math.max(xyz[a0], Math.max(xyz[a1], xyz[a2]));
            maxY = Math.max(xyz[a0 + 1], Math.max(xyz[a1 + 1], xyz[a2 + 1]));
            maxZ = Math.max(xyz[a0 + 2], Math.max(xyz[a1 + 2], xyz[a2 + 2]));
            bvh.overlapping(minX, minY, minZ, maxX, maxY, maxZ, this);
        }

        @Override
        public boolean visit(int u) {
            if (u <= current && u >= first) {
                return true;
            }
            int b0 = 3 * triangles[3 * u];
            int b1 = 3 * triangles[3 * u + 1];
            int b2 = 3 * triangles[3 * u + 2];
            if (apart(b0, b1, b2, 0, minX, maxX) || apart(b0, b1, b2, 1, minY, maxY)
                    || apart(b0, b1, b2, 2, minZ, maxZ)) {
                return true;
            }
            if (TriangleOverlap.test(xyz, a0, a1, a2, b0, b1, b2)) {
                if (size + 2 > pairs.length) {
                    pairs = Arrays.copyOf(pairs, 2 * pairs.length);
                }
                pairs[size++] = Math.min(current, u);
                pairs[size++] = Math.max(current, u);
            }
            return size < 2 * limit;
        }

        private boolean apart(int b0, int b1, int b2, int k, double min, double max) {
            double p = xyz[b0 + k];
            double q = xyz[b1 + k];
            double r = xyz[b2 + k];
            return p > max && q > max && r > max || p < min && q < min && r < min;
        }
    }
}
