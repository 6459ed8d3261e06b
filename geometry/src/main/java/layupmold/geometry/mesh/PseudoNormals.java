package layupmold.geometry.mesh;

import layupmold.geometry.parallel.Parallel;

/**
 * Normals of vertices whose sign tells the sides of a sheet for any point that is nearest to a vertex: the sums of its
 * triangles' normals by their angles there (Baerentzen and Aanaes, "Signed distance computation using the angle weighted
 * pseudonormal", 2005).
 */
public final class PseudoNormals {

    private static final int GRAIN = 1 << 12;

    private PseudoNormals() {
    }

    /**
     * O(n), on all threads.
     *
     * @param normals unit normals, three numbers a triangle
     * @param around the triangles at each vertex
     * @return three numbers a vertex, not of unit length
     */
    public static double[] atVertices(TriangleMesh mesh, double[] normals, VertexTriangles around) {
        double[] sums = new double[3 * mesh.vertexCount()];
        Parallel.forRanges(mesh.vertexCount(), GRAIN, (chunk, from, to) -> {
            for (int v = from; v < to; v++) {
                for (int i = around.start(v); i < around.start(v + 1); i++) {
                    int t = around.triangle(i);
                    double angle = mesh.angle(t, v);
                    for (int k = 0; k < 3; k++) {
                        sums[3 * v + k] += angle * normals[3 * t + k];
                    }
                }
            }
        });
        return sums;
    }
}
