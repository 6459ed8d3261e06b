package layupmold.geometry.bvh;

import java.util.function.IntPredicate;
import layupmold.geometry.parallel.Parallel;

/**
 * Least distance from vertices to triangles.
 *
 * @param mm the distance; infinite if there are no vertices or no triangles
 * @param vertex the nearest vertex, the first of equals; -1 if there is none
 */
public record VertexDistance(double mm, int vertex) {

    private static final int GRAIN = 1 << 12;
    /** Farther than any mold reaches. */
    private static final double FAR_MM = 1e6;

    /**
     * O(n log n), the same for any number of threads.
     *
     * @param accept the triangles that count; null takes all
     */
    public static VertexDistance least(double[] xyz, int[] vertices, TriangleBvh triangles, IntPredicate accept) {
        int chunks = Parallel.chunkCount(vertices.length, GRAIN);
        VertexDistance[] least = new VertexDistance[chunks];
        Parallel.forRanges(vertices.length, GRAIN, (chunk, from, to) -> {
            NearestPoint nearest = new NearestPoint();
            double best = Double.POSITIVE_INFINITY;
            int where = -1;
            for (int i = from; i < to; i++) {
                int v = 3 * vertices[i];
                triangles.nearest(xyz[v], xyz[v + 1], xyz[v + 2], Math.min(best, FAR_MM), accept,
                        nearest);
                if (nearest.triangle >= 0 && nearest.distance() < best) {
                    best = nearest.distance();
                    where = vertices[i];
                }
            }
            least[chunk] = new VertexDistance(best, where);
        });
        VertexDistance best = new VertexDistance(Double.POSITIVE_INFINITY, -1);
        for (VertexDistance of : least) {
            best = of.mm < best.mm ? of : best;
        }
        return best;
    }
}
