package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * Area by value, in bins of equal width.
 *
 * @param from lower edge of the first bin
 * @param to upper edge of the last bin
 * @param areaMm2 area in each bin; what lies beyond the edges is in the first or last
 */
@Serdeable
public record HistogramFigures(
        Double from,
        Double to,
        List<Double> areaMm2) {
}
