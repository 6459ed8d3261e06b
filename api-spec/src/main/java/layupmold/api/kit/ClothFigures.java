package layupmold.api.kit;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;
import layupmold.api.recipe.WeaveKind;

/**
 * The pieces of one cloth, nested on its roll with their warp along it.
 *
 * @param weave how the yarns cross
 * @param arealWeightGsm fibre areal weight
 * @param fibreDensity g/cm³
 * @param fibre what it is woven of
 * @param tow filaments a yarn in trade notation, or null
 * @param rollWidthMm width of the roll
 * @param lengthMm length used
 * @param wasteShare share of that cloth that is no piece
 * @param pieces how many lie on the roll
 * @param unplaced names of pieces wider than the roll
 */
@Serdeable
public record ClothFigures(
        WeaveKind weave,
        Double arealWeightGsm,
        Double fibreDensity,
        String fibre,
        String tow,
        Double rollWidthMm,
        Double lengthMm,
        Double wasteShare,
        Integer pieces,
        List<String> unplaced) {
}
