package layupmold.samples.client;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import layupmold.api.recipe.FlangeRecipe;
import layupmold.api.recipe.MoldRecipe;
import org.junit.jupiter.api.Test;

class RecipeOverridesTest {

    @Test
    void ownFieldsWinAtEveryDepth() {
        MoldRecipe defaults = flange("suit", new FlangeRecipe(25.0, 4.0, null, null, null));
        MoldRecipe own = flange("mask", new FlangeRecipe(30.0, null, null, null, 0.0));
        MoldRecipe merged = RecipeOverrides.applied(defaults, own);
        assertEquals(flange("mask", new FlangeRecipe(30.0, 4.0, null, null, 0.0)), merged);
    }

    @Test
    void eitherMayBeAbsent() {
        MoldRecipe recipe = flange("mask", null);
        assertEquals(recipe, RecipeOverrides.applied(recipe, null));
        assertEquals(recipe, RecipeOverrides.applied(null, recipe));
        assertNull(RecipeOverrides.applied((MoldRecipe) null, null));
    }

    private static MoldRecipe flange(String title, FlangeRecipe flange) {
        return new MoldRecipe(title, null, null, null, null, null, null, null, null, flange, null, null, null, null, null);
    }
}
