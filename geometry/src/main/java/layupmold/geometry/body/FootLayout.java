package layupmold.geometry.body;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.MultiPoint;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.geom.Polygon;

/**
 * Where a shell's feet stand: as far out under the border as they fit, turned so that the mold tips least. Each is the
 * piece of the free area around its place that a disc can reach, so that it follows the border and is nowhere thin.
 *
 * @param feet their soles
 * @param marginMm least distance in plan from the centre of gravity to the edge of what the feet span
 */
record FootLayout(List<Polygon> feet, double marginMm) {

    /** No foot is more than this many times as tall as it is wide: common practice, no source. */
    private static final double SLENDER = 12;
    private static final double LEAST_WIDTH_MM = 4;
    private static final double LEAST_REACH_MM = 10;
    private static final double MOST_REACH_MM = 40;
    private static final int TURNS = 18;

    /**
     * @param free where feet may stand
     * @param count three or four
     * @param heightMm from bed to border
     * @param centre of gravity in plan
     * @throws Rejection if they do not fit or the mold would fall over
     */
    static FootLayout of(Geometry free, int count, double heightMm, Coordinate centre) {
        double radius = Math.max(LEAST_WIDTH_MM, heightMm / SLENDER) / 2;
        double reach = Math.min(MOST_REACH_MM, Math.max(LEAST_REACH_MM, heightMm / 6));
        Geometry middles = PlanArea.grow(free, -radius);
        FootLayout best = null;
        for (int turn = 0; turn < TURNS && !middles.isEmpty(); turn++) {
            FootLayout layout = turned(middles, count, 2 * Math.PI * (turn + 0.5) / TURNS / count, radius, reach, centre);
            if (layout != null && (best == null || layout.marginMm > best.marginMm)) {
                best = layout;
            }
        }
        if (best == null) {
            throw new Rejection(Finding.error("body", "no-room-for-feet", String.format(Locale.ROOT,
                    "The shell's border has no room for %d feet %.0f mm tall and %.1f mm wide.", count, heightMm,
                    2 * radius)).measured(2 * radius, null, "mm")
                    .advising("Ask for a wider flange, a thinner wall, three feet, or body.kind = block."));
        }
        if (best.marginMm <= 0) {
            throw new Rejection(Finding.error("body", "shell-tips-over",
                    "The shell would fall over: its feet do not stand around its centre of gravity.")
                    .measured(best.marginMm, 0.0, "mm")
                    .advising("Ask for a wider flange, four feet, or body.kind = block."));
        }
        return best;
    }

    /** Null if two feet would touch. */
    private static FootLayout turned(
            Geometry middles, int count, double turn, double radius, double reach, Coordinate centre) {
        List<Polygon> feet = new ArrayList<>();
        for (int i = 0; i < count; i++) {
            double angle = turn + 2 * Math.PI * i / count;
            Coordinate out = farthest(middles, StrictMath.cos(angle), StrictMath.sin(angle));
            Polygon foot = foot(middles, out, radius, reach);
            for (Polygon other : feet) {
                if (other.distance(foot) < radius) {
                    return null;
                }
            }
            feet.add(foot);
        }
        Geometry spanned = PlanArea.PLANE.createMultiPolygon(feet.toArray(Polygon[]::new)).convexHull();
        Point middle = PlanArea.PLANE.createPoint(centre);
        double margin = spanned.getBoundary().distance(middle);
        return new FootLayout(feet, spanned.covers(middle) ? margin : -margin);
    }

    private static Coordinate farthest(Geometry area, double dx, double dy) {
        Coordinate best = null;
        for (Coordinate c : area.getCoordinates()) {
            if (best == null || c.x * dx + c.y * dy > best.x * dx + best.y * dy) {
                best = c;
            }
        }
        return best;
    }

    private static Polygon foot(Geometry middles, Coordinate at, double radius, double reach) {
        MultiPoint start = PlanArea.PLANE.createMultiPointFromCoords(new Coordinate[] {at});
        Geometry near = middles.intersection(PlanArea.grow(start, reach));
        Geometry piece = near;
        for (int i = 0; i < near.getNumGeometries(); i++) {
            piece = near.getGeometryN(i).distance(start) == 0 ? near.getGeometryN(i) : piece;
        }
        Geometry grown = PlanArea.grow(piece.union(start), radius);
        for (int i = 0; i < grown.getNumGeometries(); i++) {
            if (grown.getGeometryN(i).covers(start)) {
                return (Polygon) grown.getGeometryN(i);
            }
        }
        throw new IllegalStateException("a grown point covers itself");
    }
}
