package layupmold.geometry.shape;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Location;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.distance.IndexedFacetDistance;

/**
 * The part of the parameter plane that a shell covers: inside its perimeter, outside its openings.
 *
 * <p>{@link #loops()} holds the perimeter first (counter-clockwise), then the openings (clockwise), so that the domain
 * lies to the left of every loop.
 */
public final class PlanarDomain {

    private static final GeometryFactory FACTORY = new GeometryFactory();

    private final List<double[]> loops;
    private final IndexedPointInAreaLocator locator;
    private final IndexedFacetDistance distance;

    /**
     * @param perimeter closed polyline without repeated end, either way round
     * @param openings likewise, inside the perimeter and apart from each other
     * @throws IllegalArgumentException if a loop crosses itself or another
     */
    public PlanarDomain(double[] perimeter, List<double[]> openings) {
        List<double[]> all = new ArrayList<>();
        all.add(Outline.counterClockwise(perimeter));
        for (double[] opening : openings) {
            all.add(Outline.reversed(Outline.counterClockwise(opening)));
        }
        this.loops = List.copyOf(all);
        LinearRing[] holes = new LinearRing[openings.size()];
        for (int i = 0; i < holes.length; i++) {
            holes[i] = ring(loops.get(i + 1));
        }
        Polygon polygon = FACTORY.createPolygon(ring(loops.get(0)), holes);
        if (!polygon.isValid()) {
            throw new IllegalArgumentException("the loops cross themselves or each other");
        }
        this.locator = new IndexedPointInAreaLocator(polygon);
        this.distance = new IndexedFacetDistance(polygon.getBoundary());
    }

    private static LinearRing ring(double[] loop) {
        int n = loop.length / 2;
        Coordinate[] points = new Coordinate[n + 1];
        for (int i = 0; i <= n; i++) {
            points[i] = new Coordinate(loop[2 * (i % n)], loop[2 * (i % n) + 1]);
        }
        return FACTORY.createLinearRing(points);
    }

    public List<double[]> loops() {
        return loops;
    }

    public boolean contains(double u, double v) {
        return locator.locate(new Coordinate(u, v)) == Location.INTERIOR;
    }

    /** Distance to the nearest loop, mm. */
    public double distanceToLoops(double u, double v) {
        return distance.distance(FACTORY.createPoint(new Coordinate(u, v)));
    }

    /** {@code {minU, minV, maxU, maxV}}. */
    public double[] bounds() {
        double[] box = {Double.MAX_VALUE, Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        double[] perimeter = loops.get(0);
        for (int i = 0; i < perimeter.length; i++) {
            box[i % 2] = Math.min(box[i % 2], perimeter[i]);
            box[2 + i % 2] = Math.max(box[2 + i % 2], perimeter[i]);
        }
        return box;
    }
}
