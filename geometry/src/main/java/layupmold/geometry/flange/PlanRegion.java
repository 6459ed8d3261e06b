package layupmold.geometry.flange;

import java.util.ArrayList;
import java.util.List;
import org.locationtech.jts.algorithm.Orientation;
import org.locationtech.jts.densify.Densifier;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.buffer.BufferOp;
import org.locationtech.jts.operation.buffer.BufferParameters;

/** Areas seen along the pull, and their growth by a distance: thin words around JTS. */
final class PlanRegion {

    static final GeometryFactory PLANE = new GeometryFactory();

    /** Corners of growth arcs: 32 a quadrant leave a sagitta of 0.03 % of the distance. */
    private static final int QUADRANT_SEGMENTS = 32;
    /** Growth may simplify its input by this share of the distance. */
    private static final double SIMPLIFY_SHARE = 1e-4;
    /** Growth beyond what was asked, for its arcs' sagitta and its simplified input. */
    private static final double SPARE_SHARE = 2 * SIMPLIFY_SHARE + 1 - Math.cos(Math.PI / 4 / QUADRANT_SEGMENTS);
    /** Corners nearer than this are one; far below any printer's resolution, far above rounding. */
    private static final double LEAST_STEP_MM = 0.01;
    /** How much nearer than asked the rings of an area and of its growth may lie: either may have lost a corner. */
    static final double MOST_LOST_MM = 2 * LEAST_STEP_MM;

    private PlanRegion() {
    }

    /** The polygon through the plan projection of {@code ring}'s vertices. */
    static Polygon polygon(double[] xyz, int[] ring) {
        Coordinate[] corners = new Coordinate[ring.length + 1];
        for (int i = 0; i < ring.length; i++) {
            corners[i] = new Coordinate(xyz[3 * ring[i]], xyz[3 * ring[i] + 1]);
        }
        corners[ring.length] = corners[0].copy();
        return PLANE.createPolygon(corners);
    }

    /**
     * {@code area} grown by at least {@code distanceMm}: the result's arcs are widened so that no chord falls short.
     */
    static Geometry grow(Geometry area, double distanceMm) {
        BufferParameters parameters = new BufferParameters(QUADRANT_SEGMENTS);
        parameters.setSimplifyFactor(SIMPLIFY_SHARE);
        return BufferOp.bufferOp(area, grownMm(distanceMm), parameters);
    }

    /** How far an area is really grown when {@code distanceMm} is asked for. */
    static double grownMm(double distanceMm) {
        return distanceMm * (1 + SPARE_SHARE);
    }

    /** All rings of an area as open x-y corner lists, outer rings counter-clockwise, holes clockwise. */
    static List<double[]> rings(Geometry area) {
        List<double[]> rings = new ArrayList<>();
        for (int i = 0; i < area.getNumGeometries(); i++) {
            Polygon polygon = (Polygon) area.getGeometryN(i);
            rings.add(corners(polygon.getExteriorRing(), true));
            for (int k = 0; k < polygon.getNumInteriorRing(); k++) {
                rings.add(corners(polygon.getInteriorRingN(k), false));
            }
        }
        rings.removeIf(ring -> ring.length < 6);
        return rings;
    }

    /** The area with corners at most {@code stepMm} apart: growth leaves out those on straight lines. */
    static Geometry stepped(Geometry area, double stepMm) {
        return Densifier.densify(area, stepMm);
    }

    private static double[] corners(LinearRing ring, boolean counterClockwise) {
        Coordinate[] all = ring.getCoordinates();
        if (Orientation.isCCW(all) != counterClockwise) {
            all = ring.reverse().getCoordinates();
        }
        List<Coordinate> kept = new ArrayList<>();
        for (int i = 0; i < all.length - 1; i++) {
            if (kept.isEmpty() || kept.get(kept.size() - 1).distance(all[i]) >= LEAST_STEP_MM) {
                kept.add(all[i]);
            }
        }
        while (kept.size() > 3 && kept.get(kept.size() - 1).distance(kept.get(0)) < LEAST_STEP_MM) {
            kept.remove(kept.size() - 1);
        }
        double[] xy = new double[2 * kept.size()];
        for (int i = 0; i < kept.size(); i++) {
            xy[2 * i] = kept.get(i).x;
            xy[2 * i + 1] = kept.get(i).y;
        }
        return xy;
    }
}
