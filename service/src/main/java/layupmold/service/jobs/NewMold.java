package layupmold.service.jobs;

import layupmold.service.recipe.AcceptedRecipe;
import layupmold.service.store.Blob;

/**
 * A part that was just posted.
 *
 * @param owner who posted it
 * @param part its bytes, already in the store
 * @param partName file name given with it, or null
 * @param recipe what to make of it
 * @param like a congruent part whose mold is carried over, or null
 */
public record NewMold(String owner, Blob part, String partName, AcceptedRecipe recipe, Like like) {

    public NewMold(String owner, Blob part, String partName, AcceptedRecipe recipe) {
        this(owner, part, partName, recipe, null);
    }
}
