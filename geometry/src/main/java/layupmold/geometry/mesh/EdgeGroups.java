package layupmold.geometry.mesh;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.parallel.Parallel;

/**
 * Which half-edges lie on the same edge, whatever their direction; numbered as in {@link EdgeTopology}.
 *
 * <p>O(n log n) at worst, also where a hub vertex has very many triangles; the same on any number of threads.
 */
public final class EdgeGroups {

    private static final int GRAIN = 1 << 15;
    private static final int SMALL = 24;

    private final int[] mate;
    private final List<int[]> crowded;

    private EdgeGroups(int[] mate, List<int[]> crowded) {
        this.mate = mate;
        this.crowded = crowded;
    }

    /**
     * Groups the half-edges of {@code triangles}.
     *
     * @param triangles vertex indices, three a triangle
     * @param vertexCount upper bound of the indices, exclusive
     */
    public static EdgeGroups of(int[] triangles, int vertexCount) {
        int n = triangles.length;
        // Bucket half-edges by their lower vertex: linear, cache friendly, and no boxed keys.
        int[] start = new int[vertexCount + 1];
        for (int h = 0; h < n; h++) {
            start[lower(triangles, h) + 1]++;
        }
        for (int v = 0; v < vertexCount; v++) {
            start[v + 1] += start[v];
        }
        int[] bucket = new int[n];
        int[] fill = Arrays.copyOf(start, vertexCount);
        for (int h = 0; h < n; h++) {
            bucket[fill[lower(triangles, h)]++] = h;
        }
        int[] mate = new int[n];
        List<List<int[]>> found = new ArrayList<>();
        for (int c = 0; c < Parallel.chunkCount(vertexCount, GRAIN); c++) {
            found.add(new ArrayList<>());
        }
        Parallel.forRanges(vertexCount, GRAIN, (chunk, from, to) -> {
            for (int v = from; v < to; v++) {
                sortByUpper(triangles, bucket, start[v], start[v + 1]);
                group(triangles, bucket, start[v], start[v + 1], mate, found.get(chunk));
            }
        });
        List<int[]> crowded = new ArrayList<>();
        found.forEach(crowded::addAll);
        return new EdgeGroups(mate, crowded);
    }

    private static int lower(int[] triangles, int h) {
        return Math.min(triangles[h], triangles[EdgeTopology.next(h)]);
    }

    private static int upper(int[] triangles, int h) {
        return Math.max(triangles[h], triangles[EdgeTopology.next(h)]);
    }

    /** Sorts a bucket by upper vertex, then by half-edge. */
    private static void sortByUpper(int[] triangles, int[] bucket, int from, int to) {
        if (to - from > SMALL) {
            long[] keys = new long[to - from];
            for (int i = from; i < to; i++) {
                keys[i - from] = (long) upper(triangles, bucket[i]) << 32 | bucket[i];
            }
            Arrays.sort(keys);
            for (int i = from; i < to; i++) {
                bucket[i] = (int) keys[i - from];
            }
            return;
        }
        for (int i = from + 1; i < to; i++) {
            int h = bucket[i];
            int key = upper(triangles, h);
            int j = i - 1;
            while (j >= from && upper(triangles, bucket[j]) > key) {
                bucket[j + 1] = bucket[j];
                j--;
            }
            bucket[j + 1] = h;
        }
    }

    private static void group(int[] triangles, int[] bucket, int from, int to, int[] mate, List<int[]> crowded) {
        for (int i = from; i < to;) {
            int end = i + 1;
            int key = upper(triangles, bucket[i]);
            while (end < to && upper(triangles, bucket[end]) == key) {
                end++;
            }
            if (end - i == 1) {
                mate[bucket[i]] = EdgeTopology.BOUNDARY;
            } else if (end - i == 2) {
                mate[bucket[i]] = bucket[i + 1];
                mate[bucket[i + 1]] = bucket[i];
            } else {
                int[] members = Arrays.copyOfRange(bucket, i, end);
                for (int h : members) {
                    mate[h] = EdgeTopology.NON_MANIFOLD;
                }
                crowded.add(members);
            }
            i = end;
        }
    }

    /**
     * For every half-edge the only other one on its edge, in either direction, or {@link EdgeTopology#BOUNDARY} or
     * {@link EdgeTopology#NON_MANIFOLD}. The array itself.
     */
    public int[] mate() {
        return mate;
    }

    /** The half-edges of each edge that has three or more, ascending; edges in order of their vertices. */
    public List<int[]> crowded() {
        return crowded;
    }
}
