package layupmold.api.batch;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;
import layupmold.api.recipe.MoldRecipe;

/**
 * The contents list of a suit.
 *
 * @param title name of the suit
 * @param defaults recipe of every part, or null for the service's own defaults
 * @param parts in the order they are to be made
 */
@Serdeable
public record SuitManifest(
        String title,
        MoldRecipe defaults,
        List<SuitPart> parts) {
}
