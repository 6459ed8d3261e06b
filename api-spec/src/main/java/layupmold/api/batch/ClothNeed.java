package layupmold.api.batch;

import io.micronaut.serde.annotation.Serdeable;
import layupmold.api.recipe.WeaveKind;

/**
 * Cloth for a suit's parts.
 *
 * @param weave how its yarns cross
 * @param arealWeightGsm g/m²
 * @param areaM2 as cut, margins included, before nesting on a roll
 */
@Serdeable
public record ClothNeed(
        WeaveKind weave,
        double arealWeightGsm,
        double areaM2) {
}
