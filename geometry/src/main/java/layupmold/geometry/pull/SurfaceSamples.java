package layupmold.geometry.pull;

import layupmold.geometry.mesh.TriangleMesh;

/**
 * Points spread evenly by area over a mesh, each speaking for the same area.
 *
 * @param count number of points
 * @param position coordinates, three a point
 * @param normal unit normals, three a point
 * @param triangle triangle each lies on
 * @param areaMm2 area that one point stands for
 */
record SurfaceSamples(int count, double[] position, double[] normal, int[] triangle, double areaMm2) {

    private static final double PLASTIC = 1.32471795724474602596;

    /**
     * One point in the middle of each of {@code count} equal steps along the triangles' summed area, placed inside its
     * triangle by a low-discrepancy sequence; O(n).
     */
    static SurfaceSamples of(TriangleMesh mesh, int count) {
        double total = mesh.area();
        double step = total / count;
        SurfaceSamples samples = new SurfaceSamples(count, new double[3 * count], new double[3 * count],
                new int[count], step);
        double[] normals = mesh.unitNormals();
        double sum = 0;
        int next = 0;
        for (int t = 0; t < mesh.triangleCount() && next < count; t++) {
            sum += mesh.areaNormal(t).length() / 2;
            while (next < count && (next + 0.5) * step < sum) {
                samples.place(mesh, normals, t, next++);
            }
        }
        while (next < count) {
            // Rounding may leave the last point beyond the sum.
            samples.place(mesh, normals, mesh.triangleCount() - 1, next++);
        }
        return samples;
    }

    private void place(TriangleMesh mesh, double[] normals, int t, int i) {
        double u = (i + 1) / PLASTIC % 1;
        double v = (i + 1) / (PLASTIC * PLASTIC) % 1;
        if (u + v > 1) {
            u = 1 - u;
            v = 1 - v;
        }
        double[] p = mesh.xyz();
        int a = 3 * mesh.triangles()[3 * t];
        int b = 3 * mesh.triangles()[3 * t + 1];
        int c = 3 * mesh.triangles()[3 * t + 2];
        for (int k = 0; k < 3; k++) {
            position[3 * i + k] = p[a + k] + u * (p[b + k] - p[a + k]) + v * (p[c + k] - p[a + k]);
            normal[3 * i + k] = normals[3 * t + k];
        }
        triangle[i] = t;
    }

    /** Cosine between the normal of point {@code i} and a unit vector. */
    double along(int i, double x, double y, double z) {
        return normal[3 * i] * x + normal[3 * i + 1] * y + normal[3 * i + 2] * z;
    }
}
