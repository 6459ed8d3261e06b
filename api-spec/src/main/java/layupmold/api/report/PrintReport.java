package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * How the mold prints.
 *
 * @param overhangLimitDeg angle from the vertical that still prints without support
 * @param overhangMm2 area that looks down by more
 * @param overhangs largest first; places of less than 0.1 mm² are left out
 * @param bed how it stands on the printer
 * @param filament material and time
 * @param heat whether it stands the cure
 */
@Serdeable
public record PrintReport(
        Double overhangLimitDeg,
        Double overhangMm2,
        List<OverhangPlace> overhangs,
        BedReport bed,
        FilamentReport filament,
        HeatReport heat) {
}
