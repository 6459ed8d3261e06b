package layupmold.geometry.drape;

/**
 * Finds the fourth corner of a net cell: the point of the sheet at one link from two neighbours (van West, Pipes and
 * Keefe 1990: the surface cut with two spheres).
 *
 * <p>The two spheres meet in a circle in the plane midway between the neighbours, so the node is where that plane's cut
 * with the sheet leaves the circle, on the side away from the cell's known corner. Following the cut over adjacent
 * triangles gives the exact node of the faceted surface and can never jump to a wall that is near but not connected.
 */
final class NodeSolver {

    /** Outcome of {@link #solve}. */
    enum Result { ON_SHEET, OFF_SHEET, IMPOSSIBLE }

    /** Sine of half the least corner angle that a cell may close to; below it the net has collapsed. */
    private static final double LEAST_HALF_SINE = Math.sin(Math.toRadians(3));

    private final ToolSheet sheet;
    private final DrapeNet net;
    private final double step;
    private final SectionWalk walk;
    private final double[] a = new double[3];
    private final double[] b = new double[3];
    private final double[] c = new double[3];
    private final double[] midPlane = new double[3];
    private final double[] away = new double[3];
    private final double[] mid = new double[3];

    /** The node found. */
    final double[] point = new double[3];
    int triangle;

    NodeSolver(ToolSheet sheet, DrapeNet net) {
        this.sheet = sheet;
        this.net = net;
        this.step = net.stepMm();
        this.walk = new SectionWalk(sheet);
    }

    /**
     * @param nodeA neighbour along one thread
     * @param nodeB neighbour along the other
     * @param nodeC the corner opposite to the wanted one
     */
    Result solve(int nodeA, int nodeB, int nodeC) {
        net.copy(nodeA, a);
        net.copy(nodeB, b);
        net.copy(nodeC, c);
        double span = 0;
        for (int k = 0; k < 3; k++) {
            mid[k] = (a[k] + b[k]) / 2;
            midPlane[k] = b[k] - a[k];
            away[k] = mid[k] - c[k];
            span += midPlane[k] * midPlane[k];
        }
        span = Math.sqrt(span);
        if (!isOpen(span / (2 * step))) {
            return Result.IMPOSSIBLE;
        }
        for (int k = 0; k < 3; k++) {
            midPlane[k] /= span;
        }
        double radius = Math.sqrt(step * step - span * span / 4);
        if (!toMidway(nodeA, nodeB)) {
            return onExtension(nodeA, nodeB, radius);
        }
        double[] from = walk.point.clone();
        if (distance(from, mid) >= radius) {
            return Result.IMPOSSIBLE;
        }
        boolean found = walk.walk(midPlane, walk.triangle, from, away, 6 * step,
                (px, py, pz, qx, qy, qz) -> SectionWalk.leavesSphere(px, py, pz, qx, qy, qz, mid, radius));
        if (!found || dot(walk.point, away) - dot(mid, away) <= 0) {
            return Result.IMPOSSIBLE;
        }
        System.arraycopy(walk.point, 0, point, 0, 3);
        triangle = walk.triangle;
        return walk.offSheet ? Result.OFF_SHEET : Result.ON_SHEET;
    }

    /** @param halfSine sine of half the corner angle, which is the neighbours' distance over two links */
    static boolean isOpen(double halfSine) {
        return halfSine >= LEAST_HALF_SINE && halfSine <= Math.cos(Math.asin(LEAST_HALF_SINE));
    }

    /** Walks over the sheet from one neighbour towards the other until midway. */
    private boolean toMidway(int nodeA, int nodeB) {
        return !net.isOffSheet(nodeA) && toMidway(net.triangle(nodeA), a, 1)
                || !net.isOffSheet(nodeB) && toMidway(net.triangle(nodeB), b, -1);
    }

    private boolean toMidway(int t, double[] from, int sign) {
        double[] n = sheet.normals();
        double[] towards = {sign * midPlane[0], sign * midPlane[1], sign * midPlane[2]};
        double[] plane = {
            n[3 * t + 1] * midPlane[2] - n[3 * t + 2] * midPlane[1],
            n[3 * t + 2] * midPlane[0] - n[3 * t] * midPlane[2],
            n[3 * t] * midPlane[1] - n[3 * t + 1] * midPlane[0]};
        double length = Math.sqrt(dot(plane, plane));
        if (length < 1e-6) {
            return false;
        }
        for (int k = 0; k < 3; k++) {
            plane[k] /= length;
        }
        double target = sign * dot(mid, midPlane);
        boolean found = walk.walk(plane, t, from, towards, 6 * step, (px, py, pz, qx, qy, qz) -> {
            double p = px * towards[0] + py * towards[1] + pz * towards[2] - target;
            double q = qx * towards[0] + qy * towards[1] + qz * towards[2] - target;
            return p >= 0 ? 0 : q >= 0 ? p / (p - q) : -1;
        });
        return found && !walk.offSheet;
    }

    /** Past the sheet's edge: the node in the plane through the three corners, or flat beside the edge's triangle. */
    private Result onExtension(int nodeA, int nodeB, double radius) {
        int t = net.triangle(net.isOffSheet(nodeA) ? nodeB : nodeA);
        double along = dot(away, midPlane);
        double square = 0;
        for (int k = 0; k < 3; k++) {
            point[k] = away[k] - along * midPlane[k];
            square += point[k] * point[k];
        }
        if (square < 1e-12 * step * step) {
            return Result.IMPOSSIBLE;
        }
        double scale = radius / Math.sqrt(square);
        for (int k = 0; k < 3; k++) {
            point[k] = mid[k] + scale * point[k];
        }
        triangle = t;
        return Result.OFF_SHEET;
    }

    private static double dot(double[] u, double[] v) {
        return u[0] * v[0] + u[1] * v[1] + u[2] * v[2];
    }

    private static double distance(double[] u, double[] v) {
        return Math.sqrt((u[0] - v[0]) * (u[0] - v[0]) + (u[1] - v[1]) * (u[1] - v[1])
                + (u[2] - v[2]) * (u[2] - v[2]));
    }
}
