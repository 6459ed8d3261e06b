package layupmold.geometry.bvh;

import java.util.Arrays;

/**
 * The triangles that may be nearest to any point beside a place, by their distance from it: many questions there are
 * answered by few triangles each, without a way down the tree. Answers are those of the tree. For one thread.
 */
public final class Neighbourhood {

    /** More than these are no faster than the tree. */
    private static final int MOST = 512;
    /** Distances are rounded; what is left out must be farther for sure. */
    private static final double SLACK = 1 + 1e-9;

    private final TriangleBvh bvh;
    private final NearestPoint found = new NearestPoint();
    /** Distance from the place, rounded down to a float, then the triangle's place in the tree's order. */
    private final long[] nearFirst = new long[MOST];
    private int size;
    private double x;
    private double y;
    private double z;
    private double reachSquared;

    public Neighbourhood(TriangleBvh bvh) {
        this.bvh = bvh;
    }

    /**
     * Gathers triangles for questions within {@code reachMm} of (x, y, z); if those are too many it covers nothing.
     *
     * @param likelyMm how far the nearest one is likely to be
     */
    public void gather(double x, double y, double z, double reachMm, double likelyMm) {
        this.x = x;
        this.y = y;
        this.z = z;
        size = 0;
        bvh.nearestAnywhere(x, y, z, likelyMm, null, found);
        // From any such point the nearest triangle is no farther than this one and the way here.
        double withinMm = (found.distance() + 2 * reachMm) * SLACK;
        reachSquared = found.triangle >= 0 && gather(withinMm) ? reachMm * reachMm : -1;
        Arrays.sort(nearFirst, 0, size);
    }

    private boolean gather(double withinMm) {
        int[] stack = new int[TriangleBvh.STACK];
        int top = 1;
        while (top > 0) {
            int node = stack[--top];
            if (bvh.boxDistanceSquared(node, x, y, z) > withinMm * withinMm) {
                continue;
            }
            if (node < bvh.leafCount - 1) {
                stack[top++] = 2 * node + 2;
                stack[top++] = 2 * node + 1;
                continue;
            }
            int leaf = node - bvh.leafCount + 1;
            for (int i = bvh.leafStart(leaf); i < bvh.leafStart(leaf + 1); i++) {
                found.begin(withinMm);
                bvh.onTriangle(i, x, y, z, found);
                if (found.triangle >= 0 && size == MOST) {
                    return false;
                }
                if (found.triangle >= 0) {
                    nearFirst[size++] = (long) Float.floatToIntBits(TriangleBvh.below(found.distance())) << 32 | i;
                }
            }
        }
        return true;
    }

    /** Whether questions about (px, py, pz) are answered from here. */
    public boolean covers(double px, double py, double pz) {
        return squaredFrom(px, py, pz) <= reachSquared * SLACK;
    }

    /** The nearest point of the mesh to one that is covered. */
    public void nearest(double px, double py, double pz, NearestPoint answer) {
        answer.begin(Double.POSITIVE_INFINITY);
        double way = Math.sqrt(squaredFrom(px, py, pz));
        for (int k = 0; k < size; k++) {
            double least = Float.intBitsToFloat((int) (nearFirst[k] >>> 32)) - way;
            if (least > 0 && least * least > answer.distanceSquared * SLACK) {
                return;
            }
            bvh.onTriangle((int) nearFirst[k], px, py, pz, answer);
        }
    }

    private double squaredFrom(double px, double py, double pz) {
        return (px - x) * (px - x) + (py - y) * (py - y) + (pz - z) * (pz - z);
    }
}
