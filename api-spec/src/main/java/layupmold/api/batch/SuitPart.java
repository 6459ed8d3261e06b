package layupmold.api.batch;

import io.micronaut.serde.annotation.Serdeable;
import layupmold.api.recipe.MoldRecipe;

/**
 * One part of a suit.
 *
 * @param name unique within the suit; names the results
 * @param file mesh file, next to the manifest; null for the mirror image of another part's mesh
 * @param recipe what differs from the suit's defaults, field by field, or null
 * @param mirrorOf name of the part whose mirror image this is, or null
 * @param quantity how many are wanted; absent for one
 */
@Serdeable
public record SuitPart(
        String name,
        String file,
        MoldRecipe recipe,
        String mirrorOf,
        Integer quantity) {
}
