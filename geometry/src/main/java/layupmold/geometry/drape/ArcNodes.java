package layupmold.geometry.drape;

/**
 * Finds the fourth corner of a net cell at one link from two neighbours, links measured over the sheet: a thread lies on
 * the surface and does not cut through it, or a ridge lower than a link would shorten the cloth.
 *
 * <p>Instead of two spheres, two geodesic circles meet: a straightest way of one link leaves the first neighbour at the
 * angle that the flat triangle of the two links and the way between the neighbours has there, and that angle is bettered
 * until its end is one link from the second neighbour. On a developable surface the first angle is right.
 */
final class ArcNodes {

    private static final int MOST_ROUNDS = 8;
    /** Links are as long as they should be within this share. */
    private static final double CLOSE = 1e-4;
    /** A link that stays farther off is not a link. */
    private static final double FAR = 0.02;
    private static final double MOST_TURN = 0.3;

    private final DrapeNet net;
    private final double[] normals;
    private final double step;
    private final ArcLength arcs;
    private final GeodesicWalk walk;
    private final double[] a = new double[3];
    private final double[] b = new double[3];
    private final double[] c = new double[3];
    private final double[] towardsB = new double[3];
    private final double[] dir = new double[3];

    /** The node found. */
    final double[] point = new double[3];
    int triangle;
    private boolean offSheet;
    private double least;

    ArcNodes(ToolSheet sheet, DrapeNet net) {
        this.net = net;
        this.normals = sheet.normals();
        this.step = net.stepMm();
        this.arcs = new ArcLength(sheet);
        this.walk = new GeodesicWalk(sheet, true);
    }

    /**
     * @param nodeA neighbour along one thread, on the sheet
     * @param nodeB neighbour along the other, on the sheet
     * @param nodeC the corner opposite to the wanted one
     * @return null where no angle gives two links; IMPOSSIBLE where the cell collapses; OFF_SHEET where the node lies on the flat continuation of the edge
     */
    NodeSolver.Result solve(int nodeA, int nodeB, int nodeC) {
        net.copy(nodeA, a);
        net.copy(nodeB, b);
        net.copy(nodeC, c);
        int atA = net.triangle(nodeA);
        int atB = net.triangle(nodeB);
        double span = arcs.between(atA, a, atB, b);
        System.arraycopy(arcs.leaving, 0, towardsB, 0, 3);
        if (!NodeSolver.isOpen(span / (2 * step))) {
            return NodeSolver.Result.IMPOSSIBLE;
        }
        double angle = Math.acos(span / (2 * step));
        double away = awayFrom(atA);
        least = Double.POSITIVE_INFINITY;
        for (int round = 0; round < MOST_ROUNDS && least > CLOSE * step; round++) {
            turn(atA, away * angle);
            if (!walk.start(atA, a, dir) || !walk.step(step)) {
                return result();
            }
            double link = arcs.between(atB, b, walk.triangle, walk.point);
            double error = link - step;
            if (Math.abs(error) < least) {
                least = Math.abs(error);
                System.arraycopy(walk.point, 0, point, 0, 3);
                triangle = walk.triangle;
                offSheet = walk.offSheet;
            }
            double slope = span * Math.max(0.05, Math.sin(angle));
            angle -= Math.max(-MOST_TURN, Math.min(MOST_TURN, error / slope));
        }
        return result();
    }

    private NodeSolver.Result result() {
        if (least > FAR * step) {
            return null;
        }
        return offSheet ? NodeSolver.Result.OFF_SHEET : NodeSolver.Result.ON_SHEET;
    }

    /** Which way to turn from B so as to go away from C. */
    private double awayFrom(int atA) {
        int n = 3 * atA;
        double cx = c[0] - a[0];
        double cy = c[1] - a[1];
        double cz = c[2] - a[2];
        double left = normals[n] * (towardsB[1] * cz - towardsB[2] * cy)
                + normals[n + 1] * (towardsB[2] * cx - towardsB[0] * cz)
                + normals[n + 2] * (towardsB[0] * cy - towardsB[1] * cx);
        return left > 0 ? -1 : 1;
    }

    /** The direction to B turned to the left in A's triangle. */
    private void turn(int atA, double radians) {
        int n = 3 * atA;
        double cos = Math.cos(radians);
        double sin = Math.sin(radians);
        dir[0] = cos * towardsB[0] + sin * (normals[n + 1] * towardsB[2] - normals[n + 2] * towardsB[1]);
        dir[1] = cos * towardsB[1] + sin * (normals[n + 2] * towardsB[0] - normals[n] * towardsB[2]);
        dir[2] = cos * towardsB[2] + sin * (normals[n] * towardsB[1] - normals[n + 1] * towardsB[0]);
    }
}
