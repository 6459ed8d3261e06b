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
                    double angle = angle(mesh, v, t);
                    for (int k = 0; k < 3; k++) {
                        sums[3 * v + k] += angle * normals[3 * t + k];
                    }
                }
            }
        });
        return sums;
    }

    /** Of triangle {@code t} at its corner {@code v}; 0 where a side has no length. */
    private static double angle(TriangleMesh mesh, int v, int t) {
        int[] corners = mesh.triangles();
        int corner = corners[3 * t] == v ? 0 : corners[3 * t + 1] == v ? 1 : 2;
        double[] xyz = mesh.xyz();
        int a = 3 * v;
        int b = 3 * corners[3 * t + (corner + 1) % 3];
        int c = 3 * corners[3 * t + (corner + 2) % 3];
        double ux = xyz[b] - xyz[a];
        double uy = xyz[b + 1] - xyz[a + 1];
        double uz = xyz[b + 2] - xyz[a + 2];
        double wx = xyz[c] - xyz[a];
        double wy = xyz[c + 1] - xyz[a + 1];
        double wz = xyz[c + 2] - xyz[a + 2];
        double dot = ux * wx + uy * wy + uz * wz;
        double lengths = Math.sqrt((ux * ux + uy * uy + uz * uz) * (wx * wx + wy * wy + wz * wz));
        return lengths > 0 ? Math.acos(Math.max(-1, Math.min(1, dot / lengths))) : 0;
    }
}
