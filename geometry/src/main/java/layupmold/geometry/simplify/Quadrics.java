package layupmold.geometry.simplify;

import layupmold.geometry.mesh.TriangleMesh;

/**
 * For every vertex the sum of squared distances to the planes it stands for, as symmetric 4 × 4 forms (Garland and
 * Heckbert, "Surface simplification using quadric error metrics", 1997). Unweighted: the root of a sum is never less
 * than the distance to the farthest of the planes.
 */
final class Quadrics {

    private static final int SIZE = 10;

    private final double[] q;
    /** Forms are taken about this point, since squares of far coordinates would drown the distances. */
    private final double ox;
    private final double oy;
    private final double oz;

    Quadrics(TriangleMesh mesh) {
        q = new double[SIZE * mesh.vertexCount()];
        double[] box = mesh.bounds();
        ox = (box[0] + box[3]) / 2;
        oy = (box[1] + box[4]) / 2;
        oz = (box[2] + box[5]) / 2;
        double[] normals = mesh.unitNormals();
        double[] xyz = mesh.xyz();
        int[] corners = mesh.triangles();
        for (int t = 0; t < mesh.triangleCount(); t++) {
            int a = 3 * corners[3 * t];
            if (isFlat(mesh, t)) {
                continue;
            }
            for (int k = 0; k < 3; k++) {
                addPlane(corners[3 * t + k], normals[3 * t], normals[3 * t + 1], normals[3 * t + 2],
                        xyz[a], xyz[a + 1], xyz[a + 2], 1);
            }
        }
    }

    /** Whether a triangle is so thin that its normal is noise. */
    private static boolean isFlat(TriangleMesh mesh, int t) {
        double longest = 0;
        for (int k = 0; k < 3; k++) {
            longest = Math.max(longest, mesh.corner(t, k).distanceSquared(mesh.corner(t, (k + 1) % 3)));
        }
        return mesh.areaNormal(t).length() < CollapseGuard.FLAT_MM * Math.sqrt(longest);
    }

    /** Adds {@code weight} times the squared distance to the plane with unit normal n through (x, y, z). */
    void addPlane(int v, double nx, double ny, double nz, double x, double y, double z, double weight) {
        double d = -(nx * (x - ox) + ny * (y - oy) + nz * (z - oz));
        int i = SIZE * v;
        q[i] += weight * nx * nx;
        q[i + 1] += weight * nx * ny;
        q[i + 2] += weight * nx * nz;
        q[i + 3] += weight * ny * ny;
        q[i + 4] += weight * ny * nz;
        q[i + 5] += weight * nz * nz;
        q[i + 6] += weight * nx * d;
        q[i + 7] += weight * ny * d;
        q[i + 8] += weight * nz * d;
        q[i + 9] += weight * d * d;
    }

    /** The planes of {@code from} become {@code to}'s as well. */
    void merge(int from, int to) {
        for (int k = 0; k < SIZE; k++) {
            q[SIZE * to + k] += q[SIZE * from + k];
        }
    }

    /** Sum of squares of {@code v}'s planes at (x, y, z). */
    double at(int v, double x, double y, double z) {
        double px = x - ox;
        double py = y - oy;
        double pz = z - oz;
        int i = SIZE * v;
        return px * (q[i] * px + 2 * (q[i + 1] * py + q[i + 2] * pz + q[i + 6]))
                + py * (q[i + 3] * py + 2 * (q[i + 4] * pz + q[i + 7]))
                + pz * (q[i + 5] * pz + 2 * q[i + 8]) + q[i + 9];
    }
}
