package layupmold.geometry.inspect;

import java.util.function.IntPredicate;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.RayHit;
import layupmold.geometry.bvh.TriangleBvh;

/**
 * Measures the wall under one point of a solid at a time; reused by one thread. See {@link WallThickness} for what
 * thickness means here.
 */
final class ThicknessProbe implements IntPredicate {

    /** Cosine of 120°, the least angle between the normals on both sides of a wall. */
    private static final double OPPOSING = -0.5;
    /** Cosine of 100°: a ball may rest on an edge whose triangles oppose less than the edge itself does. */
    private static final double ACCEPTED = -0.17364817766693;
    private static final double CONVERGED = 1e-6;
    private static final int MAX_STEPS = 25;
    /** Below this the angle at which a ball rests is noise. */
    private static final double LEAST_RADIUS_MM = 1e-5;

    private final TriangleBvh bvh;
    private final double[] normals;
    private final double capMm;
    private final RayHit hit = new RayHit();
    private final NearestPoint nearest = new NearestPoint();
    private double nx;
    private double ny;
    private double nz;

    /** Length of the ray through the wall, or NaN if it leaves through a surface that does not oppose or is capped. */
    double rayMm;
    /** Diameter of the inscribed ball, never more than the ray, or NaN if nothing opposes within the cap. */
    double ballMm;

    ThicknessProbe(MeasuredSolid solid, double capMm) {
        this.bvh = solid.bvh();
        this.normals = solid.normals();
        this.capMm = capMm;
    }

    /** Measures at a point of {@code triangle}. */
    void measure(double x, double y, double z, int triangle) {
        nx = normals[3 * triangle];
        ny = normals[3 * triangle + 1];
        nz = normals[3 * triangle + 2];
        rayMm = castRay(x, y, z, triangle);
        ballMm = shrinkBall(x, y, z);
    }

    private double castRay(double x, double y, double z, int triangle) {
        bvh.firstHit(x, y, z, -nx, -ny, -nz, 1e-6, capMm, triangle, hit);
        return hit.triangle >= 0 && cosineTo(hit.triangle) <= OPPOSING ? hit.t : Double.NaN;
    }

    /** Ma, Bae, Choi, "3D medial axis point approximation using nearest neighbors and the normal field", 2012. */
    private double shrinkBall(double x, double y, double z) {
        double limit = Double.isNaN(rayMm) ? capMm / 2 : rayMm / 2;
        double radius = limit;
        double cosine = -1;
        for (int step = 0; step < MAX_STEPS; step++) {
            bvh.nearest(x - radius * nx, y - radius * ny, z - radius * nz, radius * (1 - CONVERGED), this, nearest);
            if (nearest.triangle < 0) {
                break;
            }
            double wx = x - nearest.x;
            double wy = y - nearest.y;
            double wz = z - nearest.z;
            double depth = nx * wx + ny * wy + nz * wz;
            double next = (wx * wx + wy * wy + wz * wz) / (2 * depth);
            if (!(depth > 0 && next < radius)) {
                break;
            }
            radius = next;
            // Outward normal of the ball where it touches: the angle that the wall's two sides make.
            cosine = 1 - depth / radius;
        }
        boolean rests = cosine <= OPPOSING && radius < capMm / 2 && radius > LEAST_RADIUS_MM;
        return rests ? 2 * radius : rayMm;
    }

    private double cosineTo(int other) {
        return nx * normals[3 * other] + ny * normals[3 * other + 1] + nz * normals[3 * other + 2];
    }

    @Override
    public boolean test(int other) {
        return cosineTo(other) < ACCEPTED;
    }
}
