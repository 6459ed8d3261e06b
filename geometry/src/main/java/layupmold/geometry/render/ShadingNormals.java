package layupmold.geometry.render;

import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/**
 * Normals a corner: smooth where neighbouring triangles meet flatly, split at creases. The normal of a corner is the
 * area-weighted mean of those triangles around its vertex that lean less than the crease angle from the corner's own.
 */
public final class ShadingNormals {

    /** Triangles that meet at a larger angle show an edge. */
    public static final double CREASE_DEG = 38;

    /** Around a vertex with more triangles than this the mean is left out: its cost grows with their square. */
    private static final int MOST_AROUND = 96;

    private ShadingNormals() {
    }

    /** Nine numbers a triangle: unit normals of its three corners; O(n). */
    public static float[] ofCorners(TriangleMesh mesh) {
        int[] triangles = mesh.triangles();
        double[] area = new double[triangles.length];
        double[] unit = mesh.unitNormals();
        int[] start = new int[mesh.vertexCount() + 1];
        int[] around = trianglesAround(mesh, start);
        Parallel.forRanges(mesh.triangleCount(), 8192, (chunk, from, to) -> {
            for (int t = from; t < to; t++) {
                areaNormal(mesh, t, area);
            }
        });
        float[] corners = new float[3 * triangles.length];
        double cosine = Math.cos(Math.toRadians(CREASE_DEG));
        Parallel.forRanges(triangles.length, 8192, (chunk, from, to) -> {
            for (int c = from; c < to; c++) {
                int v = triangles[c];
                meanAround(c / 3, around, start[v], start[v + 1], area, unit, cosine, corners, 3 * c);
            }
        });
        return corners;
    }

    /** Fills {@code start} (one longer than the vertices) and returns the triangles of each vertex, vertex by vertex. */
    private static int[] trianglesAround(TriangleMesh mesh, int[] start) {
        int[] triangles = mesh.triangles();
        for (int v : triangles) {
            start[v + 1]++;
        }
        for (int v = 0; v < mesh.vertexCount(); v++) {
            start[v + 1] += start[v];
        }
        int[] next = start.clone();
        int[] around = new int[triangles.length];
        for (int c = 0; c < triangles.length; c++) {
            around[next[triangles[c]]++] = c / 3;
        }
        return around;
    }

    private static void areaNormal(TriangleMesh mesh, int t, double[] out) {
        double[] xyz = mesh.xyz();
        int[] triangles = mesh.triangles();
        int a = 3 * triangles[3 * t];
        int b = 3 * triangles[3 * t + 1];
        int c = 3 * triangles[3 * t + 2];
        double ux = xyz[b] - xyz[a];
        double uy = xyz[b + 1] - xyz[a + 1];
        double uz = xyz[b + 2] - xyz[a + 2];
        double vx = xyz[c] - xyz[a];
        double vy = xyz[c + 1] - xyz[a + 1];
        double vz = xyz[c + 2] - xyz[a + 2];
        out[3 * t] = uy * vz - uz * vy;
        out[3 * t + 1] = uz * vx - ux * vz;
        out[3 * t + 2] = ux * vy - uy * vx;
    }

    private static void meanAround(int own, int[] around, int from, int to, double[] area, double[] unit,
            double cosine, float[] out, int at) {
        double ox = unit[3 * own];
        double oy = unit[3 * own + 1];
        double oz = unit[3 * own + 2];
        double x = 0;
        double y = 0;
        double z = 0;
        for (int i = from; i < to && to - from <= MOST_AROUND; i++) {
            int t = 3 * around[i];
            if (ox * unit[t] + oy * unit[t + 1] + oz * unit[t + 2] >= cosine) {
                x += area[t];
                y += area[t + 1];
                z += area[t + 2];
            }
        }
        double length = Math.sqrt(x * x + y * y + z * z);
        boolean found = length > 0;
        out[at] = (float) (found ? x / length : ox);
        out[at + 1] = (float) (found ? y / length : oy);
        out[at + 2] = (float) (found ? z / length : oz);
    }
}
