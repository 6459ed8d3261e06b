package layupmold.geometry.report;

import layupmold.geometry.finding.Place;
import layupmold.geometry.inspect.Histogram;

/**
 * How far the tool surface lies from the face, planned and measured on the finished solid.
 *
 * @param signedMm planned offset along the face's outward normal
 * @param words held face and the sum of layers, for people
 * @param method which algorithm made the surface
 * @param meanDeviationMm mean of | distance to the face − |offset| | over the tool surface
 * @param p95DeviationMm its 95th percentile
 * @param maxDeviationMm its maximum
 * @param maxPlace where, in the posted mesh's frame
 * @param reachLimitedMm2 tool area where corners tighter than the offset were mitred, rounded or filled instead
 * @param uncoveredMm2 area of the capped face that has no tool surface at its offset: under core plugs too
 * @param deviations tool area by signed deviation, mm; positive is farther from the face than planned
 */
public record OffsetFigures(
        double signedMm,
        String words,
        String method,
        double meanDeviationMm,
        double p95DeviationMm,
        double maxDeviationMm,
        Place maxPlace,
        double reachLimitedMm2,
        double uncoveredMm2,
        Histogram deviations) {
}
