package layupmold.geometry.flange;

import layupmold.geometry.mark.TrimMark;
import layupmold.geometry.recipe.FlangeSpec;
import org.joml.Vector3d;

/**
 * The skirt cut across the perimeter: the trim line's mark, a groove or step, then a plain strip.
 *
 * @param mark before it is offset
 * @param plainMm width of the strip beyond it
 * @param steepestRad elevation that nothing exceeds, so that the part releases
 */
record SkirtSection(TrimMark mark, double plainMm, double steepestRad) {

    /** The strip before the mark, which the offset all but closes, is narrowed only where the rest is by more than this. */
    private static final double FIRM = 2.5;

    /** @param offsetMm signed offset along the part's outward normal that will follow */
    static SkirtSection of(FlangeSpec spec, double offsetMm, double plainMm) {
        return new SkirtSection(TrimMark.of(spec.trimLineDepthMm(), offsetMm), plainMm,
                Math.toRadians(90 - spec.draftDeg()));
    }

    double widthMm() {
        return mark.endMm() + plainMm;
    }

    int rings() {
        return 1 + beforeEnd().length;
    }

    /** Where the rings but the last would lie without the mark, as shares of the way from the perimeter to the end. */
    double unmarkedShare(int ring) {
        return beforeEnd()[ring] / widthMm();
    }

    private double[] beforeEnd() {
        if (mark.depthMm() == 0) {
            return new double[0];
        }
        return mark.leadMm() == 0 ? new double[] {mark.valleyMm(), mark.endMm()}
                : new double[] {mark.leadMm(), mark.valleyMm(), mark.endMm()};
    }

    /** Place of ring {@code ring} relative to the perimeter, for a skirt {@code share} times as large. */
    Vector3d at(PerimeterSlope slope, double share, int ring) {
        double e = slope.elevationRad();
        double turn = Math.atan2(2 * mark.depthMm(), mark.widthMm());
        double side = Math.hypot(mark.depthMm(), mark.widthMm() / 2);
        // On a plain skirt all of these are 0 but the last.
        double[] lengths = {mark.leadMm(), side, side, plainMm};
        double[] elevations = {e, e - turn, Math.min(e + turn, steepestRad), e};
        int sections = ring == rings() - 1 ? lengths.length : ring + (mark.leadMm() == 0 ? 2 : 1);
        double run = 0;
        double rise = 0;
        for (int i = 0; i < sections; i++) {
            double length = lengths[i] * (i == 0 ? Math.min(1, FIRM * share) : share);
            run += length * Math.cos(elevations[i]);
            rise += length * Math.sin(elevations[i]);
        }
        return slope.along(run, rise);
    }
}
