package layupmold.api.kit;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * What to mix, losses included.
 *
 * @param laminateResin name of the laminating resin
 * @param finishResin name of the finish coat's resin
 * @param clothG dry cloth with margin
 * @param resinG resin of the laminate, without hardener
 * @param hardenerG its hardener
 * @param finishResinG resin of the finish coat
 * @param finishHardenerG its hardener
 * @param finishMm2 area that the finish coat covers
 * @param potLifeMin pot life of the laminating resin at the workshop's temperature
 * @param tackHours hours at 20 °C until the next coat keys without sanding
 * @param demoldHours hours at 20 °C until the part may leave the mold
 * @param fullCureHours hours at 20 °C until sanding and load
 * @param finishCureHours the same of the finish coat
 * @param shelfMonths months that closed cans of the laminating resin keep
 * @param coats in the order of the work
 */
@Serdeable
public record ResinFigures(
        String laminateResin,
        String finishResin,
        Double clothG,
        Double resinG,
        Double hardenerG,
        Double finishResinG,
        Double finishHardenerG,
        Double finishMm2,
        Double potLifeMin,
        Double tackHours,
        Double demoldHours,
        Double fullCureHours,
        Double finishCureHours,
        Double shelfMonths,
        List<CoatFigures> coats) {
}
