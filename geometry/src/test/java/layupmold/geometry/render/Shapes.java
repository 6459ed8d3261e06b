package layupmold.geometry.render;

import layupmold.geometry.mesh.TriangleMesh;

/** Meshes whose pictures are known. */
final class Shapes {

    private Shapes() {
    }

    /** A closed sphere of quads cut in two, {@code n} rings and {@code 2n} sectors, vertices on the sphere. */
    static TriangleMesh sphere(int n, double radius, double cx, double cy, double cz) {
        int around = 2 * n;
        double[] xyz = new double[3 * ((n - 1) * around + 2)];
        int[] triangles = new int[3 * 2 * around * (n - 1)];
        int at = 0;
        for (int ring = 1; ring < n; ring++) {
            double polar = Math.PI * ring / n;
            for (int s = 0; s < around; s++) {
                double azimuth = 2 * Math.PI * s / around;
                xyz[at++] = cx + radius * Math.sin(polar) * Math.cos(azimuth);
                xyz[at++] = cy + radius * Math.sin(polar) * Math.sin(azimuth);
                xyz[at++] = cz + radius * Math.cos(polar);
            }
        }
        int north = at / 3;
        int south = north + 1;
        xyz[at++] = cx;
        xyz[at++] = cy;
        xyz[at++] = cz + radius;
        xyz[at++] = cx;
        xyz[at++] = cy;
        xyz[at] = cz - radius;
        int t = 0;
        for (int s = 0; s < around; s++) {
            int next = (s + 1) % around;
            t = put(triangles, t, north, s, next);
            t = put(triangles, t, south, (n - 2) * around + next, (n - 2) * around + s);
            for (int ring = 0; ring < n - 2; ring++) {
                int a = ring * around;
                int b = a + around;
                t = put(triangles, t, a + s, b + s, b + next);
                t = put(triangles, t, a + s, b + next, a + next);
            }
        }
        return new TriangleMesh(xyz, triangles);
    }

    /** A rectangle at height z facing up, {@code n} × {@code n} cells. */
    static TriangleMesh plate(int n, double x0, double y0, double x1, double y1, double z) {
        double[] xyz = new double[3 * (n + 1) * (n + 1)];
        int[] triangles = new int[6 * n * n];
        int t = 0;
        for (int j = 0; j <= n; j++) {
            for (int i = 0; i <= n; i++) {
                int v = j * (n + 1) + i;
                xyz[3 * v] = x0 + (x1 - x0) * i / n;
                xyz[3 * v + 1] = y0 + (y1 - y0) * j / n;
                xyz[3 * v + 2] = z;
                if (i < n && j < n) {
                    t = put(triangles, t, v, v + 1, v + n + 2);
                    t = put(triangles, t, v, v + n + 2, v + n + 1);
                }
            }
        }
        return new TriangleMesh(xyz, triangles);
    }

    private static int put(int[] triangles, int at, int a, int b, int c) {
        triangles[at] = a;
        triangles[at + 1] = b;
        triangles[at + 2] = c;
        return at + 3;
    }
}
