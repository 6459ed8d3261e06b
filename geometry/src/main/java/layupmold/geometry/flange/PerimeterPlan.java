package layupmold.geometry.flange;

import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.geom.util.GeometryFixer;
import org.locationtech.jts.operation.valid.IsValidOp;

/** What the perimeter encloses seen along the pull. */
final class PerimeterPlan {

    /** Loops and pockets that a self-crossing perimeter cuts off are jitter up to this width. */
    static final double MOST_JITTER_MM = 0.5;
    /** Joins areas that touch in a crossing only. */
    private static final double SEAM_MM = 0.01;

    private PerimeterPlan() {
    }

    /**
     * The area as one polygon without holes; a perimeter that crosses itself by little only, where it runs steeply
     * along the pull or leans out over itself, is taken with all its loops. O(n log n).
     *
     * @throws Rejection if it crosses itself by more, or if the face lies outside
     */
    static Polygon of(double[] xyz, int[] perimeter) {
        Polygon raw = PlanRegion.polygon(xyz, perimeter);
        if (signedArea(xyz, perimeter) <= 0) {
            throw new Rejection(Finding.error("flange", "perimeter-faces-away",
                    "Seen along the pull, the face lies outside its own perimeter.")
                    .at(near(xyz, perimeter, xyz[3 * perimeter[0]], xyz[3 * perimeter[0] + 1]))
                    .advising("Turn the pull direction around, or keep the other wall."));
        }
        Plan plan = plan(raw, signedArea(xyz, perimeter));
        if (!plan.faults.isEmpty()) {
            Coordinate where = plan.faults.getCoordinate();
            throw new Rejection(Finding.error("flange", "perimeter-crosses-itself",
                    "Seen along the pull, the part's perimeter crosses itself: no wall can rise from it.")
                    .at(near(xyz, perimeter, where.x, where.y))
                    .advising("Choose another pull direction, or split the part so that each piece's edge is seen "
                            + "as a simple loop."));
        }
        return plan.area;
    }

    /** Where a perimeter crosses itself by more than jitter, less its margins; empty if it does not. */
    static Geometry faults(double[] xyz, int[] perimeter) {
        return plan(PlanRegion.polygon(xyz, perimeter), signedArea(xyz, perimeter)).faults;
    }

    /**
     * @param area with all loops
     * @param faults what makes it more than jitter
     */
    private record Plan(Polygon area, Geometry faults) {
    }

    private static Plan plan(Polygon raw, double signedArea) {
        IsValidOp valid = new IsValidOp(raw);
        if (valid.isValid()) {
            return new Plan(raw, PlanRegion.PLANE.createEmpty(2));
        }
        LineString line = raw.getExteriorRing();
        Polygon whole = (Polygon) GeometryFixer.fix(raw).union(line.buffer(SEAM_MM));
        Polygon filled = PlanRegion.PLANE.createPolygon(whole.getExteriorRing());
        Geometry faults = wide(filled.difference(whole)).union(wide(loops(raw)));
        double turnedOver = filled.getArea() - signedArea - SEAM_MM * line.getLength();
        boolean isFolded = faults.isEmpty() && turnedOver > MOST_JITTER_MM * MOST_JITTER_MM;
        return new Plan(filled,
                isFolded ? PlanRegion.PLANE.createPoint(valid.getValidationError().getCoordinate()) : faults);
    }

    /** All that a crossing cuts off from the largest piece. */
    private static Geometry loops(Polygon raw) {
        Geometry pieces = GeometryFixer.fix(raw);
        Geometry largest = pieces.getGeometryN(0);
        for (int i = 1; i < pieces.getNumGeometries(); i++) {
            if (pieces.getGeometryN(i).getArea() > largest.getArea()) {
                largest = pieces.getGeometryN(i);
            }
        }
        return pieces.difference(largest);
    }

    private static Geometry wide(Geometry area) {
        return area.buffer(-MOST_JITTER_MM / 2);
    }

    private static double signedArea(double[] xyz, int[] perimeter) {
        double twiceArea = 0;
        for (int i = 0; i < perimeter.length; i++) {
            int a = 3 * perimeter[i];
            int b = 3 * perimeter[(i + 1) % perimeter.length];
            twiceArea += xyz[a] * xyz[b + 1] - xyz[b] * xyz[a + 1];
        }
        return twiceArea / 2;
    }

    /** The perimeter's vertex nearest in plan, in the frame of the tool surface. */
    static Place near(double[] xyz, int[] perimeter, double x, double y) {
        int best = perimeter[0];
        for (int v : perimeter) {
            if (Math.hypot(xyz[3 * v] - x, xyz[3 * v + 1] - y)
                    < Math.hypot(xyz[3 * best] - x, xyz[3 * best + 1] - y)) {
                best = v;
            }
        }
        return Place.at(xyz[3 * best], xyz[3 * best + 1], xyz[3 * best + 2]);
    }
}
