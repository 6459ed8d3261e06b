package layupmold.service.batch;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import layupmold.api.problem.FieldError;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.recipe.AcceptedRecipe;
import layupmold.service.recipe.ContractSchemas;
import layupmold.service.recipe.RecipeReader;
import layupmold.service.settings.UploadSettings;
import layupmold.service.store.Blob;
import org.springframework.stereotype.Component;
import tools.jackson.core.JacksonException;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/** Reads a suit's manifest: against the contract first, then what parts say about each other. */
@Component
class ManifestReader {

    private final ContractSchemas schemas;
    private final RecipeReader recipes;
    private final UploadSettings settings;

    ManifestReader(ContractSchemas schemas, RecipeReader recipes, UploadSettings settings) {
        this.schemas = schemas;
        this.recipes = recipes;
        this.settings = settings;
    }

    /**
     * @throws ProblemException telling every mistake with its JSON Pointer; for CSV the pointer is into the table's JSON
     *     form, whose n-th part is the n-th row
     */
    SuitPlan read(SuitArchive archive) {
        ObjectNode manifest = archive.csv() ? ManifestCsv.toJson(archive.manifest()) : parse(archive.manifest());
        refuse(schemas.check("SuitManifest", manifest.toString()));
        ObjectNode defaults = archive.defaultsJson() == null || archive.defaultsJson().isBlank()
                ? JsonMapper.shared().createObjectNode() : parse(archive.defaultsJson());
        refuse(schemas.check("MoldRecipe", defaults.toString()));
        if (manifest.get("defaults") instanceof ObjectNode own) {
            RecipeLayers.lay(defaults, own);
        }
        List<FieldError> errors = new ArrayList<>();
        List<SuitPlan.Part> parts = new ArrayList<>();
        JsonNode list = manifest.get("parts");
        if (list.size() > settings.maxParts()) {
            throw invalid(List.of(new FieldError("/parts", "out-of-range",
                    "A suit has at most " + settings.maxParts() + " parts.")));
        }
        for (int i = 0; i < list.size(); i++) {
            parts.add(part((ObjectNode) list.get(i), "/parts/" + i, defaults, archive.files(), errors));
        }
        checkTogether(parts, errors);
        refuse(errors);
        JsonNode title = manifest.get("title");
        return new SuitPlan(title == null ? null : title.asString(), parts);
    }

    private static ObjectNode parse(String json) {
        try {
            if (JsonMapper.shared().readTree(json) instanceof ObjectNode object) {
                return object;
            }
            throw invalid(List.of(new FieldError("", "wrong-type", "This must be a JSON object.")));
        } catch (JacksonException e) {
            throw new ProblemException(ProblemKind.MALFORMED_JSON,
                    "This is not JSON: " + String.valueOf(e.getOriginalMessage()).lines().findFirst().orElse(""));
        }
    }

    private SuitPlan.Part part(ObjectNode node, String pointer, ObjectNode defaults, Map<String, Blob> files,
            List<FieldError> errors) {
        ObjectNode layers = defaults.deepCopy();
        if (node.get("recipe") instanceof ObjectNode own) {
            RecipeLayers.lay(layers, own);
        }
        boolean ownPlies = node.at("/recipe/layup/plies").isArray();
        AcceptedRecipe recipe = null;
        try {
            recipe = recipes.read(layers.toString());
            if (node.has("mirrorOf") && !ownPlies) {
                recipe = recipes.read(MirroredLayup.of(recipe.json()));
            }
        } catch (ProblemException e) {
            for (FieldError error : e.problem().errors()) {
                errors.add(new FieldError(pointer + "/recipe" + error.pointer(), error.code(), error.detail()));
            }
        }
        String file = text(node, "file");
        String mirrorOf = text(node, "mirrorOf");
        Blob mesh = file == null ? null : files.get(file);
        if (file != null && mesh == null) {
            errors.add(new FieldError(pointer + "/file", "not-allowed", "The zip has no file \"" + file + "\"."));
        } else if (file == null && mirrorOf == null) {
            errors.add(new FieldError(pointer, "missing", "A part needs a file, or another part that it mirrors."));
        }
        JsonNode quantity = node.get("quantity");
        return new SuitPlan.Part(text(node, "name"), file, mesh, mirrorOf, quantity == null ? 1 : quantity.asInt(), recipe);
    }

    private static String text(ObjectNode node, String field) {
        JsonNode value = node.get(field);
        return value == null ? null : value.asString();
    }

    private static void checkTogether(List<SuitPlan.Part> parts, List<FieldError> errors) {
        Map<String, SuitPlan.Part> byName = new HashMap<>();
        for (int i = 0; i < parts.size(); i++) {
            // Names become folders, and some file systems take capitals for small letters.
            if (byName.putIfAbsent(parts.get(i).name().toLowerCase(Locale.ROOT), parts.get(i)) != null) {
                errors.add(new FieldError("/parts/" + i + "/name", "not-allowed", "Another part has this name."));
            }
        }
        for (int i = 0; i < parts.size(); i++) {
            String mirrorOf = parts.get(i).mirrorOf();
            SuitPlan.Part other = mirrorOf == null ? null : byName.get(mirrorOf.toLowerCase(Locale.ROOT));
            if (mirrorOf != null && (other == null || other == parts.get(i) || other.file() == null)) {
                errors.add(new FieldError("/parts/" + i + "/mirrorOf", "not-allowed",
                        "There is no other part with a file named \"" + mirrorOf + "\"."));
            }
        }
    }

    private static void refuse(List<FieldError> errors) {
        if (!errors.isEmpty()) {
            throw invalid(errors);
        }
    }

    private static ProblemException invalid(List<FieldError> errors) {
        return new ProblemException(ProblemKind.SUIT_INVALID,
                errors.size() == 1 ? "One field of the manifest is wrong." : errors.size() + " fields of the manifest are wrong.",
                null, errors, List.of());
    }
}
