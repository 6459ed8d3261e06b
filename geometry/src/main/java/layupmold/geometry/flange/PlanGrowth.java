package layupmold.geometry.flange;

import java.util.ArrayList;
import java.util.List;
import org.joml.Vector2d;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.union.UnaryUnionOp;

/**
 * Growth of the area that the perimeter encloses: round, but for sharp corners, which stay sharp, so that wall and edge
 * go on around them as the face does. The border follows that roundly.
 */
final class PlanGrowth {

    /** Where the plan turns by less between long sides, its growth is as good as sharp. */
    private static final double LEAST_TURN = Math.toRadians(20);
    private static final double LEAST_SIDE_MM = 1;

    /** A corner that stands out; the angle of its middle is counted from x, and the mitre is how far its tip goes. */
    private record Corner(double x, double y, double middle, double mitre) {
    }

    private final Polygon plan;
    private final List<Corner> corners = new ArrayList<>();

    PlanGrowth(Polygon plan) {
        this.plan = plan;
        double[] xy = PlanRegion.rings(plan).get(0);
        int n = xy.length;
        for (int i = 0; i < n; i += 2) {
            double beforeX = xy[i] - xy[(i + n - 2) % n];
            double beforeY = xy[i + 1] - xy[(i + n - 1) % n];
            double afterX = xy[(i + 2) % n] - xy[i];
            double afterY = xy[(i + 3) % n] - xy[i + 1];
            double turn = Math.atan2(beforeX * afterY - beforeY * afterX, beforeX * afterX + beforeY * afterY);
            if (turn > LEAST_TURN && Math.min(Math.hypot(beforeX, beforeY), Math.hypot(afterX, afterY)) > LEAST_SIDE_MM) {
                double middle = Math.atan2(beforeY, beforeX) + turn / 2 - Math.PI / 2;
                corners.add(new Corner(xy[i], xy[i + 1], middle,
                        1 / Math.max(1 / PerimeterSlope.MOST_MITRE, Math.cos(turn / 2))));
            }
        }
    }

    /** How much farther than sides the farthest tip goes, at least 1. */
    double mostMitre() {
        return corners.stream().mapToDouble(Corner::mitre).max().orElse(1);
    }

    /** The plan grown by at least {@code distanceMm}; O(n log n). */
    Geometry by(double distanceMm) {
        Geometry round = PlanRegion.grow(plan, distanceMm);
        if (corners.isEmpty()) {
            return round;
        }
        List<Geometry> parts = new ArrayList<>();
        parts.add(round);
        for (Corner corner : corners) {
            parts.add(tip(corner, PlanRegion.grownMm(distanceMm)));
        }
        return UnaryUnionOp.union(parts);
    }

    /** Tips of the plan grown by as much, those of all sharp corners; other growth may have swallowed some. */
    List<Vector2d> tips(double distanceMm) {
        return corners.stream()
                .map(c -> from(c, c.middle, PlanRegion.grownMm(distanceMm) * c.mitre))
                .map(at -> new Vector2d(at.x, at.y))
                .toList();
    }

    /** The corner, the tip, and where the lines from the tip touch the circle around the corner. */
    private static Polygon tip(Corner corner, double radius) {
        double reach = radius * corner.mitre;
        double aside = Math.acos(1 / corner.mitre);
        Coordinate at = new Coordinate(corner.x, corner.y);
        return PlanRegion.PLANE.createPolygon(new Coordinate[] {at, from(corner, corner.middle - aside, radius),
            from(corner, corner.middle, reach), from(corner, corner.middle + aside, radius), at.copy()});
    }

    private static Coordinate from(Corner corner, double angle, double distance) {
        return new Coordinate(corner.x + distance * Math.cos(angle), corner.y + distance * Math.sin(angle));
    }
}
