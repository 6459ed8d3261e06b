package layupmold.service.batch;

import java.util.List;
import layupmold.service.recipe.AcceptedRecipe;
import layupmold.service.store.Blob;

/**
 * A manifest that passed validation.
 *
 * @param title or null
 * @param parts in the manifest's order
 */
public record SuitPlan(String title, List<Part> parts) {

    /**
     * @param file name in the zip, or null for the mirror image of another part's mesh
     * @param mesh the file's bytes, or null likewise
     * @param mirrorOf name of the part whose mirror image this should be, or null
     * @param recipe all defaults filled in
     */
    public record Part(String name, String file, Blob mesh, String mirrorOf, int quantity, AcceptedRecipe recipe) {
    }
}
