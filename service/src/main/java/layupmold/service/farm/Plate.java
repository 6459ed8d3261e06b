package layupmold.service.farm;

import java.util.List;
import layupmold.api.recipe.PrintMaterial;
import layupmold.service.store.Blob;

/**
 * Molds on one bed.
 *
 * @param file as 3MF, in the store
 */
record Plate(PrintMaterial material, List<PlateCopy> copies, Blob file) {
}
