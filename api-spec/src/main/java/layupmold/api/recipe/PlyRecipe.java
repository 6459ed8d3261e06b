package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;

/**
 * One layer of dry cloth.
 *
 * @param weave how the yarns cross
 * @param arealWeightGsm fibre areal weight, g/m²
 * @param fibreDensity g/cm³
 * @param angleDeg warp direction in the mold's plan, degrees from its x axis
 */
@Serdeable
public record PlyRecipe(
        WeaveKind weave,
        Double arealWeightGsm,
        Double fibreDensity,
        Double angleDeg) {
}
