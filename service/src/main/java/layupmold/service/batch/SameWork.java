package layupmold.service.batch;

import java.util.ArrayList;
import java.util.List;
import layupmold.api.ContractJson;
import layupmold.api.recipe.LayupRecipe;
import layupmold.api.recipe.MoldRecipe;
import layupmold.api.recipe.PlyRecipe;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.recipe.Recipe;
import layupmold.service.recipe.RecipeReader;
import layupmold.service.store.Sha256;
import org.joml.Vector3d;
import org.springframework.stereotype.Component;

/** Whether two recipes ask for the same work on congruent parts. */
@Component
class SameWork {

    private static final double SAME_DIRECTION = 1e-6;

    private final RecipeReader recipes;

    SameWork(RecipeReader recipes) {
        this.recipes = recipes;
    }

    /** Equal for recipes that differ in title, kit and the angles of plies alone: none of them changes the mold. */
    String key(String recipeJson) {
        MoldRecipe r = recipes.readStored(recipeJson).effective();
        return Sha256.hex(ContractJson.write(new MoldRecipe(null, r.unit(), r.pull(), r.keep(), r.tool(), r.hold(),
                withoutAngles(r.layup()), r.releaseMm(), r.openings(), r.flange(), r.fillet(),
                r.body(), r.printer(), r.inspect(), null)));
    }

    private static LayupRecipe withoutAngles(LayupRecipe layup) {
        List<PlyRecipe> plies = layup.plies().stream().map(ply -> new PlyRecipe(
                ply.weave(), ply.arealWeightGsm(), ply.fibreDensity(), 0.0, ply.fibre(), ply.tow())).toList();
        return new LayupRecipe(plies, layup.fibreWeightFraction(), layup.matrixDensity(), layup.finishCoatMm());
    }

    /** Whether what a recipe says in the part's own coordinates, pull and points, holds on both sides of a map. */
    boolean holds(String recipeJson, Isometry map, double toleranceMm) {
        Recipe recipe = recipes.readStored(recipeJson).geometry();
        boolean pull = recipe.pull() == null
                || map.applyToDirection(recipe.pull()).distance(recipe.pull()) < SAME_DIRECTION;
        List<Vector3d> points = new ArrayList<>(recipe.openings().exceptAt());
        if (recipe.keep() instanceof Keep.Seed at) {
            points.add(new Vector3d(at.x(), at.y(), at.z()));
        }
        return pull && points.stream().map(p -> new Vector3d(p).mul(recipe.unit().inMm()))
                .allMatch(p -> map.apply(p).distance(p) <= toleranceMm);
    }
}
