package layupmold.api.batch;

import io.micronaut.serde.annotation.Serdeable;
import layupmold.api.recipe.PrintMaterial;

/**
 * Print material for a suit's molds.
 *
 * @param material what it is
 * @param massG how much
 */
@Serdeable
public record FilamentNeed(
        PrintMaterial material,
        double massG) {
}
