package layupmold.geometry.flange;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.recipe.FlangeSpec;

/**
 * The flange in section: how high the surface stands at growing distance in plan from the skirt's end.
 *
 * <p>Heights count along the direction in which the wall leaves the perimeter: with the pull for a cavity, against it
 * for a plug. A wall of at least the asked draft climbs to the rounded edge, and the level border ends at the outline.
 * The wall ends at one distance all around, so that where the skirt dips the draft is the asked one and elsewhere it is
 * more.
 *
 * @param stripMm distance of the ring next to the skirt
 * @param stripRiseMm height of that ring over the skirt's end
 * @param climb rings of wall and edge that follow it, by growing distance
 * @param borderMm distances of the border's rings from the perimeter in plan; the last is the outline
 * @param planeHeight height of the border
 */
record FlangeProfile(
        double stripMm, double stripRiseMm, List<Level> climb, double[] borderMm, double planeHeight) {

    /** Angle between the section's corners on the rounded edge. */
    private static final double EDGE_STEP = Math.toRadians(15);
    /** What is left of the wall, at the perimeter's highest point, below the rounded edge. */
    private static final double LEAST_WALL_MM = 1;
    /** The wall begins with a narrow strip, at most half of it. */
    private static final double WIDEST_STRIP_MM = 0.2;
    /**
     * Offsets that move the border's inner rim by more may turn it over at corners: a ring this much farther out than it
     * gets keeps that from reaching the outline.
     */
    private static final double GUARD_MM = 1;
    private static final double LEAST_GUARDED_MM = 1;

    /**
     * A ring around the perimeter, below the border or where it begins.
     *
     * @param distanceMm distance from the perimeter in plan
     * @param height height of the ring
     * @param region what lies between the ring before and this one
     */
    record Level(double distanceMm, double height, MoldRegion region) {
    }

    /**
     * @param radius of the edge
     * @param offsetMm size of the offset that follows, at the sharpest corner seen along the pull: it moves the border's
     *     inner rim by as much as the edge there is mitred and, where it is rebuilt, by a little more, which the border
     *     is widened by
     */
    static FlangeProfile of(
            FlangeSpec spec, double radius, double offsetMm, double lowest, double highest, double leastRiseMm) {
        double draft = Math.toRadians(spec.draftDeg());
        double roundedRise = radius * (1 - Math.sin(draft));
        double plane = highest + Math.max(Math.max(spec.riseMm(), leastRiseMm), roundedRise + LEAST_WALL_MM);
        List<Level> climb = new ArrayList<>();
        double wallTop = plane - roundedRise;
        double strip = Math.min(WIDEST_STRIP_MM, (wallTop - highest) * Math.tan(draft) / 2);
        double distance = (wallTop - lowest) * Math.tan(draft);
        climb.add(new Level(distance, wallTop, MoldRegion.WALL));
        if (radius > 0) {
            double turn = Math.PI / 2 - draft;
            int steps = edgeSteps(draft);
            double centre = distance + radius * Math.cos(draft);
            for (int i = 1; i <= steps; i++) {
                double angle = draft + turn * i / steps;
                double height = i == steps ? plane : plane - radius + radius * Math.sin(angle);
                climb.add(new Level(centre - radius * Math.cos(angle), height, MoldRegion.EDGE));
            }
            distance = centre;
        }
        double corner = radius > 0 ? (Math.PI / 2 - draft) / edgeSteps(draft) : Math.PI / 2 - draft;
        double mitre = offsetMm * Math.tan(corner / 2);
        double guard = mitre + GUARD_MM;
        double spare = PlanRegion.MOST_LOST_MM + (offsetMm > 0 ? FlangeBuilder.REBUILT_RIM_MM : 0);
        double outline = distance + spec.widthMm() + mitre + spare;
        double[] border = offsetMm > LEAST_GUARDED_MM && 2 * guard < spec.widthMm()
                ? new double[] {distance + guard, outline} : new double[] {outline};
        return new FlangeProfile(strip, strip / Math.tan(draft), climb, border, plane);
    }

    /** Distance at which the edge ends and the border begins. */
    double edgeDistanceMm() {
        return climb.get(climb.size() - 1).distanceMm();
    }

    /** Least radius of an edge on whose facets a ball can lie. */
    static double radiusForBall(double ballMm) {
        return ballMm / Math.cos(EDGE_STEP / 2);
    }

    private static int edgeSteps(double draft) {
        return Math.max(2, (int) Math.ceil((Math.PI / 2 - draft) / EDGE_STEP));
    }
}
