package layupmold.geometry.bvh;

import layupmold.geometry.mesh.TriangleMesh;

/**
 * Moves a ball that holds no surface point as near to a given point as it gets, reused by one thread.
 *
 * <p>The ball's centre keeps its distance from every triangle, a set that is not convex. Seen from a centre, the plane
 * that touches a triangle's own ball on its nearest side bounds a half-space of centres that all keep their distance;
 * the nearest point of the intersection of those half-spaces is the next centre (the convex-concave procedure: Yuille
 * and Rangarajan, "The concave-convex procedure", 2003). Every centre is free and none is farther than the one before,
 * so the answer is a local optimum, exact at once where the ball rests on planes. The ball never passes through a
 * surface, since no step is longer than half its radius. A few nearest-point queries a step.
 */
public final class FreeBall {

    private static final double MOST_STEP = 0.5;
    /** Besides those that the way takes. */
    private static final int MOST_STEPS = 80;
    /** Shares of the radius. */
    private static final double TOUCHING = 1e-7;
    private static final double RESTING = 1e-3;
    private static final double SETTLED = 5e-4;

    private final TriangleMesh surface;
    private final TriangleBvh bvh;
    private final double radius;
    private final HalfSpaces allowed = new HalfSpaces();
    private final NearestPoint nearest = new NearestPoint();
    private boolean free;

    /** The centre found. */
    public double x;
    public double y;
    public double z;

    /** @param bvh hierarchy over the surface */
    public FreeBall(TriangleMesh surface, TriangleBvh bvh, double radiusMm) {
        this.surface = surface;
        this.bvh = bvh;
        this.radius = radiusMm;
    }

    /** How far the ball around a centre cuts into the surface; 0 if it is free. */
    public double cutMm(double cx, double cy, double cz) {
        bvh.nearest(cx, cy, cz, radius, nearest);
        return nearest.triangle < 0 ? 0 : radius - nearest.distance();
    }

    /**
     * Starts at a centre that is free or nearly so; the answer stands in {@link #x}, {@link #y}, {@link #z}.
     *
     * @return distance of the centre found from (px, py, pz); infinite if none is free beside the start
     */
    public double approach(double px, double py, double pz, double fromX, double fromY, double fromZ) {
        x = fromX;
        y = fromY;
        z = fromZ;
        // A start that cuts in would be outside of its own half-spaces.
        free = false;
        step(x, y, z);
        if (!free) {
            return Double.POSITIVE_INFINITY;
        }
        int most = MOST_STEPS + (int) (distance(px, py, pz) / (MOST_STEP * radius));
        for (int i = 0; i < most; i++) {
            if (step(px, py, pz) < SETTLED * radius) {
                break;
            }
        }
        return distance(px, py, pz);
    }

    /** How far the ball stays off the edge between the two planes it rests on at the widest angle; 0 if it rests on one. */
    public double crestMm() {
        return radius * (1 / Math.sqrt(Math.max(0, (1 + allowed.leastCosine(RESTING * radius)) / 2)) - 1);
    }

    private double distance(double px, double py, double pz) {
        return Math.sqrt((px - x) * (px - x) + (py - y) * (py - y) + (pz - z) * (pz - z));
    }

    /** Moves the centre towards the nearest allowed place as seen from where it is; returns how far. */
    private double step(double px, double py, double pz) {
        allowed.clear(px, py, pz, TOUCHING * radius);
        while (true) {
            double away = distance(allowed.x, allowed.y, allowed.z);
            double share = Math.min(1, MOST_STEP * radius / away);
            double cx = x + share * (allowed.x - x);
            double cy = y + share * (allowed.y - y);
            double cz = z + share * (allowed.z - z);
            bvh.nearest(cx, cy, cz, radius * (1 - 2 * TOUCHING), nearest);
            if (nearest.triangle < 0) {
                x = cx;
                y = cy;
                z = cz;
                free = true;
                return share * away;
            }
            if (allowed.isFull() || !exclude(nearest.triangle)) {
                return 0;
            }
        }
    }

    /** Bounds the allowed centres by the plane that touches the triangle's ball on the side of the centre. */
    private boolean exclude(int triangle) {
        nearest.triangle = -1;
        nearest.distanceSquared = Double.POSITIVE_INFINITY;
        int[] corners = surface.triangles();
        ClosestPoint.onTriangle(surface.xyz(), 3 * corners[3 * triangle], 3 * corners[3 * triangle + 1],
                3 * corners[3 * triangle + 2], x, y, z, triangle, nearest);
        double away = nearest.distance();
        double nx = (x - nearest.x) / away;
        double ny = (y - nearest.y) / away;
        double nz = (z - nearest.z) / away;
        return allowed.add(nx, ny, nz, nx * nearest.x + ny * nearest.y + nz * nearest.z + radius);
    }
}
