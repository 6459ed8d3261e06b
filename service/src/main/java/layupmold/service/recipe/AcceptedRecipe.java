package layupmold.service.recipe;

import layupmold.api.recipe.MoldRecipe;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.recipe.Recipe;

/**
 * A recipe that passed validation.
 *
 * @param effective as JSON records, every default filled in
 * @param geometry the same for the geometry
 * @param kit its kit section for the geometry
 * @param json the effective recipe written out: members in the contract's order, no white space, absent ones left out
 * @param hash SHA-256 of that JSON, hexadecimal
 */
public record AcceptedRecipe(MoldRecipe effective, Recipe geometry, KitSpec kit, String json, String hash) {
}
