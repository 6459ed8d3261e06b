package layupmold.geometry.flange;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.recipe.FlangeSpec;

/**
 * The flange in section: how high the surface stands at growing distance from the perimeter in plan.
 *
 * <p>Heights count along the direction in which the wall leaves the perimeter: with the pull for a cavity, against it
 * for a plug. A narrow ledge marks the trim line, a wall of at least the asked draft climbs to the rounded edge, and
 * the level border ends at the outline. The wall ends at one distance all around, so that where the perimeter dips the
 * draft is the asked one and elsewhere it is more.
 *
 * @param ledgeMm distance of the ring next to the perimeter
 * @param ledgeRiseMm height of that ring over the perimeter
 * @param levels what follows it, by growing distance
 * @param planeHeight height of the border
 */
record FlangeProfile(double ledgeMm, double ledgeRiseMm, List<Level> levels, double planeHeight) {

    /** Angle between the section's corners on the rounded edge. */
    private static final double EDGE_STEP = Math.toRadians(15);
    /** What is left of the wall, at the perimeter's highest point, below the rounded edge. */
    private static final double LEAST_WALL_MM = 0.5;
    /** Without a mark the wall still begins with a narrow band. */
    private static final double LEAST_LEDGE_MM = 0.05;

    /**
     * A ring around the perimeter.
     *
     * @param distanceMm distance from the perimeter in plan
     * @param height height of the ring
     * @param region what lies between the ring before and this one
     */
    record Level(double distanceMm, double height, MoldRegion region) {
    }

    static FlangeProfile of(FlangeSpec spec, double lowest, double highest, double leastRiseMm) {
        double draft = Math.toRadians(spec.draftDeg());
        double radius = spec.edgeRadiusMm();
        double roundedRise = radius * (1 - Math.sin(draft));
        double plane = highest + Math.max(Math.max(spec.riseMm(), leastRiseMm), roundedRise + LEAST_WALL_MM);
        List<Level> levels = new ArrayList<>();
        double ledge = spec.trimLineDepthMm() > 0 ? spec.trimLineDepthMm() : LEAST_LEDGE_MM;
        double ledgeRise = spec.trimLineDepthMm() > 0 ? 0 : ledge / Math.tan(draft);
        double wallTop = plane - roundedRise;
        double distance = ledge + Math.max(ledge, (wallTop - lowest - ledgeRise) * Math.tan(draft));
        levels.add(new Level(distance, wallTop, MoldRegion.WALL));
        if (radius > 0) {
            double turn = Math.PI / 2 - draft;
            int steps = Math.max(2, (int) Math.ceil(turn / EDGE_STEP));
            double centre = distance + radius * Math.cos(draft);
            for (int i = 1; i <= steps; i++) {
                double angle = draft + turn * i / steps;
                double height = i == steps ? plane : plane - radius + radius * Math.sin(angle);
                levels.add(new Level(centre - radius * Math.cos(angle), height, MoldRegion.EDGE));
            }
            distance = centre;
        }
        levels.add(new Level(distance + spec.widthMm(), plane, MoldRegion.BORDER));
        return new FlangeProfile(ledge, ledgeRise, levels, plane);
    }
}
