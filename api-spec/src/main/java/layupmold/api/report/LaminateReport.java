package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * The cured laminate.
 *
 * @param fibreVolumeFraction mean over the plies, 0 to 1
 * @param plyMm cured thickness of each ply, first at the tool
 * @param laminateMm their sum
 */
@Serdeable
public record LaminateReport(
        Double fibreVolumeFraction,
        List<Double> plyMm,
        Double laminateMm) {
}
