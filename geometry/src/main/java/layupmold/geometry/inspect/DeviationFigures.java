package layupmold.geometry.inspect;

import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Place;

/**
 * How well the tool surface keeps its offset from the face, as {@link ToolDeviation} defines it.
 *
 * @param offsetMm planned signed offset along the face's outward normal
 * @param meanMm mean size of the deviation over the tool surface
 * @param p95Mm its 95th percentile
 * @param maxMm its maximum, where it was sampled or is known otherwise
 * @param maxAt where, on the tool surface, mold frame, mm; null if there is no tool surface within reach
 * @param histogram tool area by signed deviation; positive means farther from the face than planned
 * @param reachLimitedMm2 tool area at corners tighter than the offset, which are mitred, rounded or filled instead and
 *     are left out of the figures above
 * @param beyondMm2 tool area whose nearest face point lies on the face's boundary, left out likewise
 * @param coverMaxMm greatest distance from the face, moved by the offset, to the solid
 * @param coverMaxAt where, on the moved face, mold frame, mm; null if all of it is out of reach
 * @param uncoveredMm2 area of the face whose moved points lie farther than {@code toleranceMm} from the solid
 * @param unreachedMm2 face area that the offset surface cannot follow because other parts of the face are in the way
 * @param toleranceMm what counts as kept
 */
public record DeviationFigures(
        double offsetMm,
        double meanMm,
        double p95Mm,
        double maxMm,
        Place maxAt,
        Histogram histogram,
        double reachLimitedMm2,
        double beyondMm2,
        double coverMaxMm,
        Place coverMaxAt,
        double uncoveredMm2,
        double unreachedMm2,
        double toleranceMm) {

    /** The same, but for the greatest deviation if there is one that is known to be greater. */
    DeviationFigures atLeast(double knownMm, Place knownAt) {
        return knownMm <= maxMm ? this : new DeviationFigures(offsetMm, meanMm, p95Mm, knownMm, knownAt, histogram,
                reachLimitedMm2, beyondMm2, coverMaxMm, coverMaxAt, uncoveredMm2, unreachedMm2, toleranceMm);
    }

    /** The same with places in another frame. */
    DeviationFigures in(Isometry frame) {
        return new DeviationFigures(offsetMm, meanMm, p95Mm, maxMm, frame.apply(maxAt), histogram, reachLimitedMm2,
                beyondMm2, coverMaxMm, frame.apply(coverMaxAt), uncoveredMm2, unreachedMm2, toleranceMm);
    }
}
