package layupmold.geometry.fillet;

import layupmold.geometry.bvh.FreeBall;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * A ball that rolls over the front of a sheet, and how exactly it is followed.
 *
 * <p>C being the centres that keep their distance from the sheet, a point is filled if C is farther from it than the
 * radius, and the new surface is what lies at the radius from C: the closing of what is behind the sheet by the ball
 * (Serra, "Image Analysis and Mathematical Morphology", 1982).
 *
 * @param ground the sheet, cloth on its front
 * @param normals unit normals of its triangles
 * @param bvh hierarchy over it
 * @param radiusMm of the ball
 * @param share lengths of the sheet to the same on the tool, where corners are as much larger as their radius
 */
record RollingBall(TriangleMesh ground, double[] normals, TriangleBvh bvh, double radiusMm, double share) {

    /** Shallower fillings are none: facets of a curved surface are no corners. On the tool, mm. */
    private static final double LEAST_FILL_MM = 0.04;
    /** A filling runs out where it is shallower than this. */
    private static final double RUN_OUT_MM = 0.006;
    /** A wedge of 13° is filled so deep; slits that are narrower and deeper do not project on their lids one to one. */
    private static final double MOST_DEPTH_BY_RADIUS = 8;
    /** Of what is left as it is around a place that cannot be filled. */
    private static final double REACH_BY_RADIUS = 1.5;
    private static final double RESTING_MM = 0.004;
    /** How far triangles of the filling may leave it. */
    private static final double CHORD_MM = 0.008;

    static RollingBall over(TriangleMesh ground, double radiusMm, double share) {
        return new RollingBall(ground, ground.unitNormals(), TriangleBvh.of(ground), radiusMm, share);
    }

    /** For one thread. */
    FreeBall ball() {
        return new FreeBall(ground, bvh, radiusMm);
    }

    /**
     * How much of a filling is made: none in the shallowest corners nor in the deepest slits, and no step between.
     *
     * @param crestMm depth of the corner's filling where it is deepest
     * @param depthMm of the filling at the point
     */
    double worth(double crestMm, double depthMm) {
        double enough = 2 * Math.max(crestMm, depthMm) / leastFillMm() - 1;
        return Math.max(0, Math.min(1, Math.min(enough, 2 - depthMm / (MOST_DEPTH_BY_RADIUS * radiusMm))));
    }

    /** Whether a point so far from the filling is not filled all the way. */
    boolean isTooDeep(double depthMm) {
        return depthMm > MOST_DEPTH_BY_RADIUS * radiusMm;
    }

    double leastFillMm() {
        return share * LEAST_FILL_MM;
    }

    double runOutMm() {
        return share * RUN_OUT_MM;
    }

    double chordMm() {
        return share * CHORD_MM;
    }

    /** How far edges may leave the filling where that runs out around a fault: nothing is promised there. */
    double runOutChordMm() {
        return 4 * chordMm();
    }

    double restingMm() {
        return share * RESTING_MM;
    }

    /** How far around a place that cannot be filled all is left as it is, at first. */
    double reachMm() {
        return REACH_BY_RADIUS * radiusMm;
    }

    /** Whether the ball touches a point of {@code triangle} there without cutting in elsewhere. */
    boolean rests(FreeBall ball, double x, double y, double z, int triangle) {
        return cutMm(ball, x, y, z, triangle) <= restingMm();
    }

    /** How far the ball cuts in that touches a point of {@code triangle}. */
    double cutMm(FreeBall ball, double x, double y, double z, int triangle) {
        return ball.cutMm(x + radiusMm * normals[3 * triangle], y + radiusMm * normals[3 * triangle + 1],
                z + radiusMm * normals[3 * triangle + 2]);
    }
}
