package layupmold.geometry.body;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.recipe.ScrewSpec;
import org.locationtech.jts.algorithm.locate.IndexedPointInAreaLocator;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Location;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.linearref.LengthIndexedLine;

/** Where screw holes go: along the middle of the border, each as far from the others as it can be. */
final class HoleLayout {

    private static final int CORNERS = 48;
    private static final double STEP_MM = 1;

    private HoleLayout() {
    }

    /**
     * Fewer than asked if there is no room; O(candidates · count).
     *
     * @param outline of the border
     * @param inner what the border surrounds
     * @param taken what else the holes must be clear of
     * @param wallMm around each hole
     * @return x-y corners of each hole, counter-clockwise
     */
    static List<double[]> of(
            Polygon outline, Geometry inner, Geometry taken, ScrewSpec spec, double wallMm, CoordinateLattice lattice) {
        double radius = spec.diameterMm() / 2;
        double width = outline.getExteriorRing().distance(inner);
        List<double[]> holes = new ArrayList<>();
        if (spec.count() == 0 || width <= 2 * (radius + wallMm)) {
            return holes;
        }
        Geometry free = PlanArea.grow(outline, -radius - wallMm)
                .difference(PlanArea.grow(inner.union(taken), radius + wallMm));
        List<Coordinate> candidates = inside(free, PlanArea.grow(inner, width / 2));
        double apart = spec.diameterMm() + 2 * wallMm;
        List<Coordinate> chosen = new ArrayList<>();
        while (chosen.size() < spec.count()) {
            Coordinate next = farthest(candidates, chosen, apart);
            if (next == null) {
                break;
            }
            chosen.add(next);
            holes.add(circle(next, radius, lattice));
        }
        return holes;
    }

    private static List<Coordinate> inside(Geometry free, Geometry middle) {
        List<Coordinate> inside = new ArrayList<>();
        if (free.isEmpty()) {
            return inside;
        }
        IndexedPointInAreaLocator locator = new IndexedPointInAreaLocator(free);
        for (int i = 0; i < middle.getNumGeometries(); i++) {
            LengthIndexedLine line =
                    new LengthIndexedLine(((Polygon) middle.getGeometryN(i).norm()).getExteriorRing());
            for (double at = 0; at < line.getEndIndex(); at += STEP_MM) {
                Coordinate c = line.extractPoint(at);
                if (locator.locate(c) == Location.INTERIOR) {
                    inside.add(c);
                }
            }
        }
        return inside;
    }

    /** From those chosen; the first is the rightmost. Null if none is far enough. */
    private static Coordinate farthest(List<Coordinate> candidates, List<Coordinate> chosen, double apart) {
        Coordinate best = null;
        double most = chosen.isEmpty() ? Double.NEGATIVE_INFINITY : apart;
        for (Coordinate c : candidates) {
            double far = chosen.isEmpty() ? c.x : chosen.stream().mapToDouble(c::distance).min().getAsDouble();
            if (far > most) {
                most = far;
                best = c;
            }
        }
        return best;
    }

    /** Around the circle, so that the hole is nowhere narrower than asked. */
    private static double[] circle(Coordinate middle, double radius, CoordinateLattice lattice) {
        double[] xy = new double[2 * CORNERS];
        double around = radius / StrictMath.cos(Math.PI / CORNERS);
        for (int i = 0; i < CORNERS; i++) {
            double angle = 2 * Math.PI * i / CORNERS;
            xy[2 * i] = lattice.round(middle.x + around * StrictMath.cos(angle));
            xy[2 * i + 1] = lattice.round(middle.y + around * StrictMath.sin(angle));
        }
        return xy;
    }
}
