package layupmold.geometry.body;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.mesh.CoordinateLattice;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.LinearRing;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.util.GeometryFixer;

/** Areas seen along the pull: thin words around JTS. */
final class PlanArea {

    static final GeometryFactory PLANE = new GeometryFactory();

    /** Corners of growth arcs: 16 a quadrant leave a sagitta of 0.12 % of the distance. */
    private static final int QUADRANT_SEGMENTS = 16;
    /** Corners nearer than this are one. */
    private static final double LEAST_STEP_MM = 0.01;

    private PlanArea() {
    }

    /** The area inside the plan projection of {@code ring}'s vertices. */
    static Geometry of(double[] xyz, int[] ring) {
        double[] xy = new double[2 * ring.length];
        for (int i = 0; i < ring.length; i++) {
            xy[2 * i] = xyz[3 * ring[i]];
            xy[2 * i + 1] = xyz[3 * ring[i] + 1];
        }
        return GeometryFixer.fix(polygon(xy));
    }

    /** Through x-y corners, without repeating the first. */
    static Polygon polygon(double[] xy) {
        Coordinate[] corners = new Coordinate[xy.length / 2 + 1];
        for (int i = 0; i < corners.length - 1; i++) {
            corners[i] = new Coordinate(xy[2 * i], xy[2 * i + 1]);
        }
        corners[corners.length - 1] = corners[0].copy();
        return PLANE.createPolygon(corners);
    }

    static Geometry grow(Geometry area, double distanceMm) {
        return area.buffer(distanceMm, QUADRANT_SEGMENTS);
    }

    /** What a disc of the radius can reach inside the area: no neck of the result is narrower than its diameter. */
    static Geometry opened(Geometry area, double radiusMm) {
        return grow(grow(area, -radiusMm), radiusMm);
    }

    /** All rings of an area as open x-y corner lists on the lattice, the area on the left of each. */
    static List<double[]> rings(Geometry area, CoordinateLattice lattice) {
        List<double[]> rings = new ArrayList<>();
        for (int i = 0; i < area.getNumGeometries(); i++) {
            // Normal form: shells clockwise, holes counter-clockwise.
            Polygon polygon = (Polygon) area.getGeometryN(i).norm().reverse();
            rings.add(corners(polygon.getExteriorRing(), lattice));
            for (int k = 0; k < polygon.getNumInteriorRing(); k++) {
                rings.add(corners(polygon.getInteriorRingN(k), lattice));
            }
        }
        rings.removeIf(ring -> ring.length < 6);
        return rings;
    }

    private static double[] corners(LinearRing ring, CoordinateLattice lattice) {
        Coordinate[] all = ring.getCoordinates();
        List<Coordinate> kept = new ArrayList<>();
        for (int i = 0; i < all.length - 1; i++) {
            if (kept.isEmpty() || kept.get(kept.size() - 1).distance(all[i]) >= LEAST_STEP_MM) {
                kept.add(all[i]);
            }
        }
        while (kept.size() > 1 && kept.get(kept.size() - 1).distance(kept.get(0)) < LEAST_STEP_MM) {
            kept.remove(kept.size() - 1);
        }
        double[] xy = new double[2 * kept.size()];
        for (int i = 0; i < kept.size(); i++) {
            xy[2 * i] = lattice.round(kept.get(i).x);
            xy[2 * i + 1] = lattice.round(kept.get(i).y);
        }
        return xy;
    }
}
