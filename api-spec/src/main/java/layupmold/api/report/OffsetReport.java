package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * How far the tool surface lies from the face, planned and measured on the finished solid.
 *
 * @param signedMm planned offset along the face's outward normal
 * @param words held face and the sum of layers, for people
 * @param method which algorithm made the surface
 * @param meanDeviationMm mean deviation over the tool surface
 * @param p95DeviationMm its 95th percentile
 * @param maxDeviationMm its maximum
 * @param maxPlace where
 * @param reachLimitedMm2 tool area where corners tighter than the offset were mitred, rounded or filled
 * @param uncoveredMm2 area of the face that has no tool surface at its offset
 * @param deviations tool area by signed deviation, mm
 */
@Serdeable
public record OffsetReport(
        Double signedMm,
        String words,
        String method,
        Double meanDeviationMm,
        Double p95DeviationMm,
        Double maxDeviationMm,
        PlaceFigures maxPlace,
        Double reachLimitedMm2,
        Double uncoveredMm2,
        HistogramFigures deviations) {
}
