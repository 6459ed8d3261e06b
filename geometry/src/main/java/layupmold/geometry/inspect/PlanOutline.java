package layupmold.geometry.inspect;

import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.plate.Silhouette;
import org.locationtech.jts.geom.Coordinate;

/** The convex outline of a solid seen from above, for turning it about z. Used by one thread. */
final class PlanOutline {

    /** Corners around the hull, x and y in turn. */
    private final double[] xy;
    private final int corners;
    /** Corners farthest left, right, front and back at the turn looked at last. */
    private final int[] span = new int[4];

    /**
     * @param radians counter-clockwise, 0 to π
     * @param scale factor by which the bed may shrink, or must grow, to be just large enough
     */
    record Turn(double radians, double widthMm, double depthMm, double scale) {
    }

    private PlanOutline(double[] xy) {
        this.xy = xy;
        this.corners = xy.length / 2;
    }

    /** O(n log n). */
    static PlanOutline of(TriangleMesh solid) {
        Coordinate[] ring = Silhouette.hull(solid).getCoordinates();
        double[] xy = new double[2 * (ring.length - 1)];
        for (int i = 0; i < ring.length - 1; i++) {
            xy[2 * i] = ring[i].x;
            xy[2 * i + 1] = ring[i].y;
        }
        return new PlanOutline(xy);
    }

    /**
     * The turn at which a bed of the given proportions is filled least.
     *
     * <p>Between two turns at which an edge of the outline lies along an axis, the same two pairs of corners span width
     * and depth, each a cosine of the turn (rotating calipers: Toussaint, "Solving geometric problems with the rotating
     * calipers", 1983). Cosines being concave there, the greater of width / bed x and depth / bed y is least at the ends
     * of such a piece or where both are equal; all those turns are tried, so the answer is exact. O(h log h) for h
     * corners.
     */
    Turn leastTurn(double bedX, double bedY) {
        double[] critical = criticalTurns();
        Turn best = at(0, bedX, bedY);
        for (int i = 0; i < critical.length; i++) {
            double from = critical[i];
            double to = i + 1 < critical.length ? critical[i + 1] : critical[0] + Math.PI;
            best = better(best, at(from, bedX, bedY));
            double between = balance((from + to) / 2, bedX, bedY);
            if (between > from && between < to) {
                best = better(best, at(between, bedX, bedY));
            }
        }
        double wrapped = wrapped(best.radians);
        return new Turn(wrapped, best.widthMm, best.depthMm, best.scale);
    }

    private static Turn better(Turn a, Turn b) {
        return b.scale < a.scale - 1e-12 ? b : a;
    }

    Turn at(double turn, double bedX, double bedY) {
        look(turn);
        double c = Math.cos(turn);
        double s = Math.sin(turn);
        double width = c * across(1, 0, 0) - s * across(1, 0, 1);
        double depth = s * across(3, 2, 0) + c * across(3, 2, 1);
        return new Turn(turn, width, depth, Math.max(width / bedX, depth / bedY));
    }

    /** The turn at which the corners that span the outline at {@code within} fill both sides of the bed alike. */
    private double balance(double within, double bedX, double bedY) {
        look(within);
        // cos t · ax − sin t · ay = sin t · bx + cos t · by, with a and b spanning width and depth in shares of the bed.
        double cosine = across(1, 0, 0) / bedX - across(3, 2, 1) / bedY;
        double sine = across(1, 0, 1) / bedX + across(3, 2, 0) / bedY;
        double t = Math.atan2(cosine, sine);
        return t + Math.PI * Math.round((within - t) / Math.PI);
    }

    private double across(int to, int from, int axis) {
        return xy[2 * span[to] + axis] - xy[2 * span[from] + axis];
    }

    /** Turns in 0..π, ascending, at which an edge of the outline comes to lie along x or y. */
    private double[] criticalTurns() {
        double[] turns = new double[2 * corners];
        for (int i = 0; i < corners; i++) {
            int j = (i + 1) % corners;
            double along = Math.atan2(xy[2 * j + 1] - xy[2 * i + 1], xy[2 * j] - xy[2 * i]);
            turns[2 * i] = wrapped(-along);
            turns[2 * i + 1] = wrapped(Math.PI / 2 - along);
        }
        Arrays.sort(turns);
        return turns;
    }

    private static double wrapped(double turn) {
        double t = turn % Math.PI;
        return t < 0 ? t + Math.PI : t;
    }

    /** Climbs from the corners of the last turn to those of this one: on a convex outline every slope leads to the top. */
    private void look(double turn) {
        double c = Math.cos(turn);
        double s = Math.sin(turn);
        climb(0, -c, s);
        climb(1, c, -s);
        climb(2, -s, -c);
        climb(3, s, c);
    }

    private void climb(int side, double dx, double dy) {
        int at = span[side];
        for (int step = 1; step >= -1; step -= 2) {
            int next = Math.floorMod(at + step, corners);
            while (reach(next, dx, dy) > reach(at, dx, dy)) {
                at = next;
                next = Math.floorMod(at + step, corners);
            }
        }
        span[side] = at;
    }

    private double reach(int corner, double dx, double dy) {
        return dx * xy[2 * corner] + dy * xy[2 * corner + 1];
    }
}
