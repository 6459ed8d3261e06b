package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * Draft of one region of the mold.
 *
 * @param region tool, cap or wall
 * @param areaMm2 its area
 * @param leastDeg least draft; 90 if there is no such region
 * @param leastAt where, or null
 * @param tightMm2 area under the recipe's least draft
 * @param histogram area by draft, degrees
 */
@Serdeable
public record DraftReport(
        String region,
        Double areaMm2,
        Double leastDeg,
        PlaceFigures leastAt,
        Double tightMm2,
        HistogramFigures histogram) {
}
