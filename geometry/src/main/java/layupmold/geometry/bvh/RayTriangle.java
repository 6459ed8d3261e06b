package layupmold.geometry.bvh;

/** Ray against triangle: Möller and Trumbore, "Fast, Minimum Storage Ray-Triangle Intersection", 1997, two-sided. */
final class RayTriangle {

    /** A hair of slack: a ray through a shared edge must hit at least one of its triangles. */
    private static final double SLACK = 1e-12;

    private RayTriangle() {
    }

    /**
     * Lowers {@code answer} to triangle {@code t} if the ray meets it with {@code tMin < t < answer.t}.
     *
     * @param a where a corner's x stands in {@code xyz}; so {@code b} and {@code c}
     */
    static void intersect(double[] xyz, int a, int b, int c, int t, double ox, double oy, double oz,
            double dx, double dy, double dz, double tMin, RayHit answer) {
        double e1x = xyz[b] - xyz[a];
        double e1y = xyz[b + 1] - xyz[a + 1];
        double e1z = xyz[b + 2] - xyz[a + 2];
        double e2x = xyz[c] - xyz[a];
        double e2y = xyz[c + 1] - xyz[a + 1];
        double e2z = xyz[c + 2] - xyz[a + 2];
        double px = dy * e2z - dz * e2y;
        double py = dz * e2x - dx * e2z;
        double pz = dx * e2y - dy * e2x;
        double det = e1x * px + e1y * py + e1z * pz;
        if (det == 0) {
            return;
        }
        double inverse = 1 / det;
        double sx = ox - xyz[a];
        double sy = oy - xyz[a + 1];
        double sz = oz - xyz[a + 2];
        double u = (sx * px + sy * py + sz * pz) * inverse;
        if (!(u >= -SLACK && u <= 1 + SLACK)) {
            return;
        }
        double qx = sy * e1z - sz * e1y;
        double qy = sz * e1x - sx * e1z;
        double qz = sx * e1y - sy * e1x;
        double v = (dx * qx + dy * qy + dz * qz) * inverse;
        if (!(v >= -SLACK && u + v <= 1 + SLACK)) {
            return;
        }
        double hit = (e2x * qx + e2y * qy + e2z * qz) * inverse;
        if (hit > tMin && (hit < answer.t || hit == answer.t && answer.triangle >= 0 && t < answer.triangle)) {
            answer.t = hit;
            answer.triangle = t;
        }
    }
}
