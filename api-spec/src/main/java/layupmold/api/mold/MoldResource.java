package layupmold.api.mold;

import io.micronaut.serde.annotation.Serdeable;
import java.time.Instant;
import layupmold.api.problem.Problem;
import layupmold.api.recipe.MoldRecipe;

/**
 * One posted part on its way to a mold.
 *
 * @param id opaque identifier
 * @param status where it stands
 * @param stage the stage being worked on, or null
 * @param percent share of the work done, 0 to 100
 * @param title title from the recipe, or null
 * @param part the mesh as posted
 * @param recipe the recipe with every default filled in
 * @param recipeHash hash of that recipe, hexadecimal
 * @param createdAt when the part was accepted
 * @param startedAt when work on it began, or null
 * @param finishedAt when it ended, or null
 * @param expiresAt when it will be deleted, or null
 * @param links where to go from here
 * @param problem why there is no mold, or null
 */
@Serdeable
public record MoldResource(
        String id,
        MoldStatus status,
        String stage,
        int percent,
        String title,
        PostedPart part,
        MoldRecipe recipe,
        String recipeHash,
        Instant createdAt,
        Instant startedAt,
        Instant finishedAt,
        Instant expiresAt,
        MoldLinks links,
        Problem problem) {
}
