package layupmold.geometry.bvh;

import java.util.function.IntPredicate;

/**
 * A ball set on a point of a surface from outside and pushed off whatever it cuts: what a cloth that follows no tighter
 * radius does at a corner.
 */
public final class RestingBall {

    private static final int MOST_PUSHES = 30;
    private static final double SETTLED = 0.01;

    private RestingBall() {
    }

    /**
     * How far the ball stands off the point once it is free, within 1 % of its radius; 0 where it can rest on the point.
     * Pushing finds a near free place, not always the nearest, so the answer is an upper bound in nested corners.
     *
     * @param nx unit normal towards the side of the ball
     * @param slack share of the radius by which the ball may cut in before it counts: facets are not a corner
     * @param accept triangles that are in the ball's way; null for all
     * @param nearest overwritten
     */
    public static double gapMm(TriangleBvh bvh, double px, double py, double pz, double nx, double ny, double nz,
            double radiusMm, double slack, IntPredicate accept, NearestPoint nearest) {
        return gapMm(bvh, px, py, pz, nx, ny, nz, radiusMm, slack, accept, nearest, new double[3]);
    }

    /**
     * The same, and where the ball is then.
     *
     * @param centre receives x, y, z of the ball's centre
     */
    public static double gapMm(TriangleBvh bvh, double px, double py, double pz, double nx, double ny, double nz,
            double radiusMm, double slack, IntPredicate accept, NearestPoint nearest, double[] centre) {
        double x = px + radiusMm * nx;
        double y = py + radiusMm * ny;
        double z = pz + radiusMm * nz;
        boolean pushed = false;
        for (int i = 0; i < MOST_PUSHES; i++) {
            bvh.nearest(x, y, z, radiusMm, accept, nearest);
            double distance = nearest.triangle < 0 ? radiusMm : nearest.distance();
            if (radiusMm - distance <= (pushed ? SETTLED : slack) * radiusMm || distance == 0) {
                break;
            }
            double scale = radiusMm / distance;
            x = nearest.x + scale * (x - nearest.x);
            y = nearest.y + scale * (y - nearest.y);
            z = nearest.z + scale * (z - nearest.z);
            pushed = true;
        }
        centre[0] = x;
        centre[1] = y;
        centre[2] = z;
        double dx = x - px;
        double dy = y - py;
        double dz = z - pz;
        return pushed ? Math.max(0, Math.sqrt(dx * dx + dy * dy + dz * dz) - radiusMm) : 0;
    }
}
