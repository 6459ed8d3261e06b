package layupmold.geometry.plug;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.algorithm.Orientation;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.buffer.BufferOp;
import org.locationtech.jts.operation.buffer.BufferParameters;

/**
 * What a loop encloses seen along the pull, and what is left of it when its edge moves inward: thin words around JTS.
 */
final class PlanInset {

    private static final GeometryFactory PLANE = new GeometryFactory();
    /** 32 a quadrant leave a sagitta of 0.03 % of the distance. */
    private static final int QUADRANT_SEGMENTS = 32;
    /** Simplifying the edge may cost this share of the distance. */
    private static final double SIMPLIFY_SHARE = 1e-4;
    /** Corners nearer than this are one; far below any printer's resolution. */
    private static final double LEAST_STEP_MM = 0.01;
    /** What lies farther than this many distances from the rest is a lost arm, not a rounded corner. */
    private static final double CORNER_REACH = 1.5;
    /** An opening with more of its area than this in lost arms would not be moulded net. */
    private static final double MOST_LOST_SHARE = 0.05;

    private static final double SMOOTHED_MM = 2;

    private final Polygon area;

    private PlanInset(Polygon area) {
        this.area = area;
    }

    /** @throws Unfit if the loop crosses itself or does not run counter-clockwise */
    static PlanInset of(double[] xyz, int[] loop) throws Unfit {
        Coordinate[] corners = new Coordinate[loop.length + 1];
        for (int i = 0; i < loop.length; i++) {
            corners[i] = new Coordinate(xyz[3 * loop[i]], xyz[3 * loop[i] + 1]);
        }
        corners[loop.length] = corners[0].copy();
        Polygon area = PLANE.createPolygon(corners);
        if (!area.isValid() || !Orientation.isCCW(corners)) {
            throw new Unfit("plug-foot-not-simple", "seen along the pull, its edge crosses itself");
        }
        return new PlanInset(area);
    }

    /**
     * The corners, counter-clockwise, of what lies farther than a distance from the loop.
     *
     * @throws Unfit if nothing is left, or an arm or a second piece is lost
     */
    double[] ring(double distanceMm) throws Unfit {
        BufferParameters parameters = new BufferParameters(QUADRANT_SEGMENTS);
        parameters.setSimplifyFactor(SIMPLIFY_SHARE);
        double distance = distanceMm * (1 + 2 * SIMPLIFY_SHARE);
        Geometry shrunk = BufferOp.bufferOp(area, -distance, parameters);
        if (shrunk.isEmpty()) {
            throw tooNarrow();
        }
        Polygon left = largest(shrunk);
        double lost = area.difference(left.buffer(CORNER_REACH * distance)).getArea();
        double[] xy = corners(left);
        if (lost > MOST_LOST_SHARE * area.getArea() || xy.length < 6) {
            throw tooNarrow();
        }
        return xy;
    }

    /**
     * The area that keeps a distance from the loop, without teeth and notches narrower than {@value #SMOOTHED_MM} mm as
     * far as a third of the distance allows.
     *
     * @throws Unfit if nothing is left
     */
    PlanInset smoothed(double distanceMm) throws Unfit {
        Geometry inner = area.buffer(-distanceMm);
        Geometry closed = inner.buffer(SMOOTHED_MM / 2).buffer(-SMOOTHED_MM).buffer(SMOOTHED_MM / 2);
        Geometry safe = closed.intersection(area.buffer(-distanceMm / 3));
        if (safe.isEmpty()) {
            throw tooNarrow();
        }
        return new PlanInset(PLANE.createPolygon(largest(safe).getExteriorRing()));
    }

    double[] corners() {
        return corners(area);
    }

    private static Unfit tooNarrow() {
        return new Unfit("plug-too-narrow", "it is too narrow for a wall with this draft and height");
    }

    /** Holes cannot be: what shrinks has none. */
    private static Polygon largest(Geometry pieces) {
        Geometry largest = pieces.getGeometryN(0);
        for (int i = 1; i < pieces.getNumGeometries(); i++) {
            if (pieces.getGeometryN(i).getArea() > largest.getArea()) {
                largest = pieces.getGeometryN(i);
            }
        }
        return (Polygon) largest;
    }

    private static double[] corners(Polygon polygon) {
        Coordinate[] all = polygon.getExteriorRing().getCoordinates();
        if (!Orientation.isCCW(all)) {
            all = polygon.getExteriorRing().reverse().getCoordinates();
        }
        List<Coordinate> kept = new ArrayList<>();
        for (int i = 0; i < all.length - 1; i++) {
            if (kept.isEmpty() || kept.get(kept.size() - 1).distance(all[i]) >= LEAST_STEP_MM
                    && (i < all.length - 2 || kept.get(0).distance(all[i]) >= LEAST_STEP_MM)) {
                kept.add(all[i]);
            }
        }
        double[] xy = new double[2 * kept.size()];
        for (int i = 0; i < kept.size(); i++) {
            xy[2 * i] = kept.get(i).x;
            xy[2 * i + 1] = kept.get(i).y;
        }
        return xy;
    }
}
