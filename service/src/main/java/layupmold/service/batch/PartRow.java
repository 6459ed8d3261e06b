package layupmold.service.batch;

import layupmold.service.store.Blob;

/**
 * A suit's part as the database has it.
 *
 * @param recipeJson the recipe with all defaults
 * @param mesh its bytes, or null until they are made from another part's
 * @param mold its mold, or null until the suit is sorted
 * @param like the other part that it was recognised as, or null
 * @param note what to know about it besides, or null
 */
public record PartRow(
        int position, String name, String file, String mirrorOf, int quantity, String recipeJson, Blob mesh,
        String mold, Like like, String note) {

    /** @param name of the other part */
    public record Like(String name, boolean mirrored, double deviationMm) {
    }
}
