package layupmold.geometry.shape;

import layupmold.geometry.delaunay.ConstrainedDelaunay;

/**
 * A planar domain cut into triangles: the constrained Delaunay triangulation of its loops and of further inner points.
 *
 * <p>The first vertices are the loops' points in order (perimeter, then openings), so that meshes of one domain with
 * other inner points share their loops.
 *
 * @param uv parameters, two a vertex
 * @param triangles vertex indices, counter-clockwise
 * @param loopStarts first vertex of each loop, and after the last the number of loop vertices
 */
public record FlatMesh(double[] uv, int[] triangles, int[] loopStarts) {

    /**
     * @param domain its loops become edges of the mesh
     * @param inner further points, inside the domain, {@code u, v} each
     * @throws layupmold.geometry.delaunay.PlanarGraphException if points coincide
     *     <p>O(n log n).
     */
    public static FlatMesh of(PlanarDomain domain, double[] inner) {
        int loopCount = domain.loops().size();
        int[] loopStarts = new int[loopCount + 1];
        int[][] rings = new int[loopCount][];
        for (int i = 0; i < loopCount; i++) {
            int length = domain.loops().get(i).length / 2;
            loopStarts[i + 1] = loopStarts[i] + length;
            rings[i] = range(loopStarts[i], length);
        }
        int loopVertices = loopStarts[loopCount];
        double[] uv = new double[2 * loopVertices + inner.length];
        for (int i = 0; i < loopCount; i++) {
            System.arraycopy(domain.loops().get(i), 0, uv, 2 * loopStarts[i], 2 * rings[i].length);
        }
        System.arraycopy(inner, 0, uv, 2 * loopVertices, inner.length);
        int[] triangles = ConstrainedDelaunay.polygon(uv, rings, range(loopVertices, inner.length / 2));
        return new FlatMesh(uv, triangles, loopStarts);
    }

    private static int[] range(int from, int length) {
        int[] range = new int[length];
        for (int i = 0; i < length; i++) {
            range[i] = from + i;
        }
        return range;
    }

    public int loopCount() {
        return loopStarts.length - 1;
    }

    /** The vertex after {@code vertex} on loop {@code loop}. */
    public int nextOnLoop(int loop, int vertex) {
        return vertex + 1 == loopStarts[loop + 1] ? loopStarts[loop] : vertex + 1;
    }

    /** The vertex before {@code vertex} on loop {@code loop}. */
    public int previousOnLoop(int loop, int vertex) {
        return vertex == loopStarts[loop] ? loopStarts[loop + 1] - 1 : vertex - 1;
    }

    public int vertexCount() {
        return uv.length / 2;
    }
}
