package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * Thickness of the solid, measured all over it.
 *
 * @param limitMm what it is held against
 * @param leastMm least inscribed-ball thickness; the cap if no wall is thinner
 * @param leastAt where, or null
 * @param leastRayMm least ray thickness; the cap likewise
 * @param leastRayAt where, or null
 * @param p1Mm thickness that 1 % of the surface does not exceed
 * @param p5Mm thickness that 5 % of the surface does not exceed
 * @param thinShare share of the surface under the limit, 0 to 1
 * @param histogram surface by thickness, mm
 * @param thinRegions thinnest first; places of less than 0.1 mm² are left out
 * @param capMm thickness beyond which walls are not told apart
 */
@Serdeable
public record WallReport(
        Double limitMm,
        Double leastMm,
        PlaceFigures leastAt,
        Double leastRayMm,
        PlaceFigures leastRayAt,
        Double p1Mm,
        Double p5Mm,
        Double thinShare,
        HistogramFigures histogram,
        List<ThinPlace> thinRegions,
        Double capMm) {
}
