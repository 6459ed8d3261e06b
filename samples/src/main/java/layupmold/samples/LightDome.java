package layupmold.samples;

import layupmold.geometry.mesh.TriangleMesh;

/** A plain part of 20,000 triangles: a spherical cap with an even wall and a flat rim. */
final class LightDome {

    private static final int SECTORS = 100;
    private static final int RINGS = 50;
    private static final double WALL_MM = 2.5;
    private static final double HALF_ANGLE = Math.toRadians(70);

    private LightDome() {
    }

    /** @param radiusMm of the outer wall */
    static TriangleMesh of(double radiusMm) {
        int wall = 1 + SECTORS * RINGS;
        double[] xyz = new double[2 * 3 * wall];
        place(radiusMm, xyz, 0);
        place(radiusMm - WALL_MM, xyz, wall);
        int[] triangles = new int[3 * (2 * SECTORS * (2 * RINGS - 1) + 2 * SECTORS)];
        int at = 0;
        for (int s = 0; s < SECTORS; s++) {
            int next = (s + 1) % SECTORS;
            at = add(triangles, at, 0, vertex(0, 0, s), vertex(0, 0, next));
            at = add(triangles, at, wall, vertex(wall, 0, next), vertex(wall, 0, s));
            for (int r = 0; r + 1 < RINGS; r++) {
                at = quad(triangles, at, vertex(0, r, s), vertex(0, r + 1, s), vertex(0, r + 1, next), vertex(0, r, next));
                at = quad(triangles, at, vertex(wall, r, next), vertex(wall, r + 1, next), vertex(wall, r + 1, s),
                        vertex(wall, r, s));
            }
            at = quad(triangles, at, vertex(0, RINGS - 1, s), vertex(wall, RINGS - 1, s), vertex(wall, RINGS - 1, next),
                    vertex(0, RINGS - 1, next));
        }
        return new TriangleMesh(xyz, triangles);
    }

    private static void place(double radiusMm, double[] xyz, int base) {
        xyz[3 * base + 2] = radiusMm;
        for (int r = 0; r < RINGS; r++) {
            double fromPole = HALF_ANGLE * (r + 1) / RINGS;
            for (int s = 0; s < SECTORS; s++) {
                double around = 2 * Math.PI * s / SECTORS;
                int v = 3 * vertex(base, r, s);
                xyz[v] = radiusMm * StrictMath.sin(fromPole) * StrictMath.cos(around);
                xyz[v + 1] = radiusMm * StrictMath.sin(fromPole) * StrictMath.sin(around);
                xyz[v + 2] = radiusMm * StrictMath.cos(fromPole);
            }
        }
    }

    private static int vertex(int base, int ring, int sector) {
        return base + 1 + ring * SECTORS + sector;
    }

    private static int quad(int[] triangles, int at, int a, int b, int c, int d) {
        return add(triangles, add(triangles, at, a, b, c), a, c, d);
    }

    private static int add(int[] triangles, int at, int a, int b, int c) {
        triangles[at] = a;
        triangles[at + 1] = b;
        triangles[at + 2] = c;
        return at + 3;
    }
}
