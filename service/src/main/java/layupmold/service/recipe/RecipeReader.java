package layupmold.service.recipe;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import layupmold.api.ContractJson;
import layupmold.api.problem.FieldError;
import layupmold.api.recipe.MoldRecipe;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.recipe.Recipe;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.store.Sha256;
import org.springframework.stereotype.Component;

/** Reads recipes: checked against the contract first, so that every mistake is told with its JSON Pointer. */
@Component
public class RecipeReader {

    private final ContractSchemas schemas;

    RecipeReader(ContractSchemas schemas) {
        this.schemas = schemas;
    }

    /**
     * @param json the recipe, or null or blank for the defaults
     * @throws ProblemException if it is not JSON, or breaks the contract
     */
    public AcceptedRecipe read(String json) {
        MoldRecipe asked = json == null || json.isBlank() ? MoldRecipe.defaults() : parse(json);
        try {
            return accept(asked);
        } catch (IllegalArgumentException e) {
            throw invalid(List.of(new FieldError("", "not-allowed", e.getMessage())));
        }
    }

    /** Reads back the JSON of an {@link AcceptedRecipe}. */
    public AcceptedRecipe readStored(String json) {
        try {
            return accept(ContractJson.read(bytes(json), MoldRecipe.class));
        } catch (IOException e) {
            throw new IllegalStateException("a stored recipe cannot be read", e);
        }
    }

    private MoldRecipe parse(String json) {
        List<FieldError> errors = schemas.check("MoldRecipe", json);
        if (!errors.isEmpty()) {
            throw invalid(errors);
        }
        try {
            return ContractJson.read(bytes(json), MoldRecipe.class);
        } catch (IOException e) {
            throw new ProblemException(ProblemKind.MALFORMED_JSON, "The recipe cannot be read: " + e.getMessage());
        }
    }

    private static AcceptedRecipe accept(MoldRecipe asked) {
        Recipe recipe = RecipeMapping.toGeometry(asked);
        KitSpec kit = KitMapping.toGeometry(asked.kit());
        MoldRecipe effective = RecipeMapping.toContract(recipe, kit);
        byte[] json = ContractJson.write(effective);
        return new AcceptedRecipe(effective, recipe, kit, new String(json, StandardCharsets.UTF_8), Sha256.hex(json));
    }

    private static ProblemException invalid(List<FieldError> errors) {
        String detail = errors.size() == 1 ? "One field is wrong." : errors.size() + " fields are wrong.";
        return new ProblemException(ProblemKind.RECIPE_INVALID, detail, null, errors, List.of());
    }

    private static byte[] bytes(String json) {
        return json.getBytes(StandardCharsets.UTF_8);
    }
}
