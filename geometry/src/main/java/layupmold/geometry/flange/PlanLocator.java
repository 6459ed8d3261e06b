package layupmold.geometry.flange;

import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Location;
import org.locationtech.jts.geom.Polygon;

/** Whether points lie outside a polygon by more than rounding. */
final class PlanLocator {

    /** A vertical face sits on its perimeter's plan: rounding must not make it a bulge. */
    private static final double SLACK_MM = 0.01;

    private final IndexedPointInAreaLocator locator;

    PlanLocator(Polygon plan) {
        locator = new IndexedPointInAreaLocator(PlanRegion.grow(plan, SLACK_MM));
    }

    boolean isOutside(double x, double y) {
        return locator.locate(new Coordinate(x, y)) == Location.EXTERIOR;
    }
}
