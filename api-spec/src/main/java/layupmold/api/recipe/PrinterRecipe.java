package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;

/**
 * The machine that will print the mold.
 *
 * @param bedXMm usable width
 * @param bedYMm usable depth
 * @param heightMm usable height
 * @param nozzleMm nozzle width
 * @param material print material
 */
@Serdeable
public record PrinterRecipe(
        Double bedXMm,
        Double bedYMm,
        Double heightMm,
        Double nozzleMm,
        PrintMaterial material) {
}
