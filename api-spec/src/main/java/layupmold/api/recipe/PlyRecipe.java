package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;

/**
 * One layer of dry cloth.
 *
 * @param weave how the yarns cross
 * @param arealWeightGsm fibre areal weight, g/m²
 * @param fibreDensity g/cm³; absent to take it from the fibre
 * @param angleDeg warp direction in the mold's plan, degrees from its x axis
 * @param fibre what it is woven of
 * @param tow filaments a yarn in trade notation such as 3K, for cut lists
 */
@Serdeable
public record PlyRecipe(
        WeaveKind weave,
        Double arealWeightGsm,
        Double fibreDensity,
        Double angleDeg,
        FibreKind fibre,
        String tow) {
}
