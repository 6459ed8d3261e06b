package layupmold.geometry.flange;

import layupmold.geometry.recipe.FlangeSpec;
import org.joml.Vector3d;

/**
 * The skirt cut across the perimeter: a groove or step of the trim line's depth, then a plain strip.
 *
 * @param depthMm of the mark; 0 for none
 * @param markMm width of the mark
 * @param plainMm width of the strip beyond it
 * @param steepestRad elevation that nothing exceeds, so that the part releases
 */
record SkirtSection(double depthMm, double markMm, double plainMm, double steepestRad) {

    /** Least width of the mark and width by depth: as around openings. */
    private static final double LEAST_MARK_MM = 0.8;
    private static final double WIDTH_BY_DEPTH = 3;

    static SkirtSection of(FlangeSpec spec, double plainMm) {
        double depth = spec.trimLineDepthMm();
        return new SkirtSection(depth, depth > 0 ? Math.max(LEAST_MARK_MM, WIDTH_BY_DEPTH * depth) : 0, plainMm,
                Math.toRadians(90 - spec.draftDeg()));
    }

    double widthMm() {
        return markMm + plainMm;
    }

    int rings() {
        return depthMm > 0 ? 3 : 1;
    }

    /** Where a ring of the mark would lie without it, as a share of the way from the perimeter to the skirt's end. */
    double unmarkedShare(int ring) {
        return markMm * (ring + 1) / 2 / widthMm();
    }

    /** Place of ring {@code ring} relative to the perimeter, for a skirt {@code share} times as large. */
    Vector3d at(PerimeterSlope slope, double share, int ring) {
        double e = slope.elevationRad();
        double run = 0;
        double rise = 0;
        if (depthMm > 0) {
            double turn = Math.atan2(2 * depthMm, markMm);
            double side = share * Math.hypot(depthMm, markMm / 2);
            run = side * Math.cos(e - turn);
            rise = side * Math.sin(e - turn);
            if (ring > 0) {
                double back = Math.min(e + turn, steepestRad);
                run += side * Math.cos(back);
                rise += side * Math.sin(back);
            }
        }
        if (ring == rings() - 1) {
            run += share * plainMm * Math.cos(e);
            rise += share * plainMm * Math.sin(e);
        }
        return slope.along(run, rise);
    }
}
