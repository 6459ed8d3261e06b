package layupmold.geometry.inspect;

import layupmold.geometry.bvh.NormalBoxes;
import layupmold.geometry.bvh.RayHit;
import layupmold.geometry.bvh.TangentBall;
import layupmold.geometry.bvh.TriangleBvh;

/**
 * Measures the wall under one point of a solid at a time; reused by one thread. See {@link WallThickness} for what
 * thickness means here.
 */
final class ThicknessProbe implements TangentBall.Contacts {

    /** Cosine of 120°, the least angle between the normals on both sides of a wall. */
    private static final double OPPOSING = -0.5;
    /** Cosine of 100°: a ball may rest on an edge whose triangles oppose less than the edge itself does. */
    private static final double ACCEPTED = -0.17364817766693;
    /** Below this the angle at which a ball rests is noise. */
    private static final double LEAST_RADIUS_MM = 1e-5;

    private final TriangleBvh bvh;
    private final double[] normals;
    private final NormalBoxes turns;
    private final double capMm;
    private final RayHit hit = new RayHit();
    private final TangentBall ball;
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
        this.turns = solid.turns();
        this.capMm = capMm;
        this.ball = new TangentBall(solid.bvh(), this, 0);
    }

    /** Measures at a point of {@code triangle}; returns itself. */
    ThicknessProbe measure(double x, double y, double z, int triangle) {
        nx = normals[3 * triangle];
        ny = normals[3 * triangle + 1];
        nz = normals[3 * triangle + 2];
        rayMm = castRay(x, y, z, triangle);
        ballMm = shrinkBall(x, y, z);
        return this;
    }

    private double castRay(double x, double y, double z, int triangle) {
        bvh.firstHit(x, y, z, -nx, -ny, -nz, 1e-6, capMm, triangle, hit);
        return hit.triangle >= 0 && cosineTo(hit.triangle) <= OPPOSING ? hit.t : Double.NaN;
    }

    private double shrinkBall(double x, double y, double z) {
        double limit = Double.isNaN(rayMm) ? capMm / 2 : rayMm / 2;
        ball.shrink(x, y, z, -nx, -ny, -nz, limit);
        // The ball's outward normal where it touches: by it, its two contacts enclose the angle of the wall's sides.
        double cosine = 1 - 2 * ball.rise * ball.rise;
        boolean rests = cosine <= OPPOSING && ball.radiusMm < capMm / 2 && ball.radiusMm > LEAST_RADIUS_MM;
        return rests ? 2 * ball.radiusMm : rayMm;
    }

    private double cosineTo(int other) {
        return nx * normals[3 * other] + ny * normals[3 * other + 1] + nz * normals[3 * other + 2];
    }

    @Override
    public boolean count(int other) {
        return cosineTo(other) < ACCEPTED;
    }

    @Override
    public boolean mayCountBelow(int node) {
        return turns.leastAlong(node, nx, ny, nz) < ACCEPTED;
    }
}
