package layupmold.geometry.laminate;

import java.util.Locale;
import layupmold.geometry.recipe.Hold;
import layupmold.geometry.recipe.Tool;

/**
 * How far the tool surface lies from the modelled face, so that the held face of the finished part keeps its size.
 *
 * <p>All thicknesses are in mm; a positive offset points along the face's outward normal. With laminate tL, release
 * layer tR and finish coat tF (added to the outer side after demolding):
 *
 * <pre>
 *             hold inner    hold outer
 *   female    +(tL + tR)    +tR − tF
 *   male      −tR           −(tF + tL + tR)
 * </pre>
 */
public final class OffsetRule {

    private OffsetRule() {
    }

    /** Signed distance from face to tool surface, mm. */
    public static double signedOffsetMm(Tool tool, Hold hold, double laminateMm, double releaseMm, double finishMm) {
        return switch (tool) {
            case FEMALE -> hold == Hold.INNER ? laminateMm + releaseMm : releaseMm - finishMm;
            case MALE -> hold == Hold.INNER ? -releaseMm : -(finishMm + laminateMm + releaseMm);
        };
    }

    /** The held face and the sum of layers, as one sentence for the maker. */
    public static String words(Tool tool, Hold hold, double laminateMm, double releaseMm, double finishMm) {
        double offset = signedOffsetMm(tool, hold, laminateMm, releaseMm, finishMm);
        String sum = switch (tool) {
            case FEMALE -> hold == Hold.INNER
                    ? mm(laminateMm) + " laminate + " + mm(releaseMm) + " release layer"
                    : mm(releaseMm) + " release layer − " + mm(finishMm) + " finish coat";
            case MALE -> hold == Hold.INNER
                    ? mm(releaseMm) + " release layer"
                    : mm(finishMm) + " finish coat + " + mm(laminateMm) + " laminate + " + mm(releaseMm)
                            + " release layer";
        };
        return "The finished part's " + (hold == Hold.INNER ? "inner" : "outer")
                + " face keeps the modelled size. The tool is a " + (tool == Tool.FEMALE ? "cavity" : "plug")
                + (offset == 0 ? " whose surface is the modelled face itself: "
                        : " whose surface lies " + mm(Math.abs(offset)) + (offset > 0 ? " outside" : " inside")
                                + " the modelled face: ")
                + sum + ".";
    }

    private static String mm(double value) {
        return String.format(Locale.ROOT, "%.3f mm", value);
    }
}
