package layupmold.geometry.render;

import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/**
 * A lighter stand-in for a mesh, for looking at only: vertices that share a cell of a grid become their mean (vertex
 * clustering, Rossignac and Borrel 1993). It may touch itself and lose features thinner than a cell.
 *
 * @param mesh the lighter mesh
 * @param sourceTriangle which triangle of the full mesh each of its triangles was
 * @param cellMm edge of the grid's cells; 0 where the mesh was light enough as it was
 */
public record CoarseMesh(TriangleMesh mesh, int[] sourceTriangle, double cellMm) {

    private static final int TRIES = 12;

    /** {@code mesh} itself if it has at most {@code mostTriangles}, else a lighter one that has; O(n log n). */
    public static CoarseMesh of(TriangleMesh mesh, int mostTriangles) {
        if (mesh.triangleCount() <= mostTriangles) {
            int[] same = new int[mesh.triangleCount()];
            Arrays.setAll(same, t -> t);
            return new CoarseMesh(mesh, same, 0);
        }
        // Near a flat surface a cell of edge h keeps about two triangles an h².
        double cell = Math.sqrt(2 * mesh.area() / mostTriangles);
        CoarseMesh coarse = clustered(mesh, cell);
        for (int i = 0; i < TRIES && coarse.mesh.triangleCount() > mostTriangles; i++) {
            cell *= 1.02 * Math.sqrt((double) coarse.mesh.triangleCount() / mostTriangles);
            coarse = clustered(mesh, cell);
        }
        return coarse;
    }

    /** A map of the full mesh on this one. */
    public float[] values(float[] full) {
        float[] values = new float[sourceTriangle.length];
        for (int t = 0; t < values.length; t++) {
            values[t] = full[sourceTriangle[t]];
        }
        return values;
    }

    /** Regions of the full mesh on this one. */
    public byte[] regions(byte[] full) {
        byte[] regions = new byte[sourceTriangle.length];
        for (int t = 0; t < regions.length; t++) {
            regions[t] = full[sourceTriangle[t]];
        }
        return regions;
    }

    private static CoarseMesh clustered(TriangleMesh mesh, double cell) {
        int[] cluster = clusters(mesh, cell);
        int[] triangles = new int[mesh.triangles().length];
        int[] source = new int[mesh.triangleCount()];
        int kept = 0;
        for (int t = 0; t < mesh.triangleCount(); t++) {
            int a = cluster[mesh.triangles()[3 * t]];
            int b = cluster[mesh.triangles()[3 * t + 1]];
            int c = cluster[mesh.triangles()[3 * t + 2]];
            if (a != b && b != c && c != a) {
                triangles[3 * kept] = a;
                triangles[3 * kept + 1] = b;
                triangles[3 * kept + 2] = c;
                source[kept++] = t;
            }
        }
        return new CoarseMesh(new TriangleMesh(means(mesh, cluster), Arrays.copyOf(triangles, 3 * kept)),
                Arrays.copyOf(source, kept), cell);
    }

    /** A number from 0 for each vertex, the same for vertices in the same cell, in order of first appearance by cell. */
    private static int[] clusters(TriangleMesh mesh, double cell) {
        double[] box = mesh.bounds();
        double[] xyz = mesh.xyz();
        int n = mesh.vertexCount();
        long[] keys = new long[n];
        Parallel.forRanges(n, 16384, (chunk, from, to) -> {
            for (int v = from; v < to; v++) {
                long x = (long) ((xyz[3 * v] - box[0]) / cell);
                long y = (long) ((xyz[3 * v + 1] - box[1]) / cell);
                long z = (long) ((xyz[3 * v + 2] - box[2]) / cell);
                keys[v] = x << 42 | y << 21 | z;
            }
        });
        long[] sorted = keys.clone();
        Arrays.parallelSort(sorted);
        int distinct = 0;
        for (int i = 0; i < n; i++) {
            if (i == 0 || sorted[i] != sorted[i - 1]) {
                sorted[distinct++] = sorted[i];
            }
        }
        int found = distinct;
        int[] cluster = new int[n];
        Arrays.setAll(cluster, v -> Arrays.binarySearch(sorted, 0, found, keys[v]));
        return cluster;
    }

    private static double[] means(TriangleMesh mesh, int[] cluster) {
        int count = Arrays.stream(cluster).max().orElse(-1) + 1;
        double[] means = new double[3 * count];
        int[] members = new int[count];
        for (int v = 0; v < cluster.length; v++) {
            for (int k = 0; k < 3; k++) {
                means[3 * cluster[v] + k] += mesh.xyz()[3 * v + k];
            }
            members[cluster[v]]++;
        }
        for (int i = 0; i < means.length; i++) {
            means[i] /= members[i / 3];
        }
        return means;
    }
}
