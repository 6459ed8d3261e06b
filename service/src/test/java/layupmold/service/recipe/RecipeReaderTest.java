package layupmold.service.recipe;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import layupmold.api.ContractDocument;
import layupmold.api.problem.FieldError;
import layupmold.api.recipe.FibreKind;
import layupmold.api.recipe.ResinKind;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.kit.ResinSpec;
import layupmold.geometry.laminate.MaterialTables;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.recipe.LengthUnit;
import layupmold.geometry.recipe.Ply;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.recipe.Weave;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.store.Sha256;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.dataformat.yaml.YAMLMapper;

class RecipeReaderTest {

    private static final JsonNode SCHEMAS =
            YAMLMapper.shared().readTree(ContractDocument.yaml()).at("/components/schemas");
    private static final RecipeReader READER = new RecipeReader(new ContractSchemas());

    @Test
    void nothingAskedIsTheGeometrysDefaultRecipe() {
        for (String nothing : new String[] {null, "", "{}", "{\"flange\":{},\"layup\":{}}"}) {
            assertEquals(Recipe.defaults(), READER.read(nothing).geometry());
            assertEquals(KitSpec.defaults(), READER.read(nothing).kit());
        }
    }

    @Test
    void everyDocumentedDefaultIsTheOneThatIsUsed() {
        JsonNode effective = JsonMapper.shared().readTree(READER.read("{}").json());
        List<String> compared = new ArrayList<>();
        compare(SCHEMAS.get("MoldRecipe"), effective, "", compared);
        assertEquals(50, compared.size(), compared::toString);
    }

    private static void compare(JsonNode schema, JsonNode value, String path, List<String> compared) {
        JsonNode named = schema.has("$ref")
                ? SCHEMAS.get(schema.get("$ref").asString().replaceAll(".*/", "")) : schema;
        if (named.has("default")) {
            assertEquals(plain(named.get("default")), plain(value), path);
            compared.add(path);
        } else if (named.has("properties")) {
            named.get("properties").forEachEntry(
                    (name, inner) -> compare(inner, value.path(name), path + "/" + name, compared));
        }
    }

    /** 210 and 210.0 are one number. */
    private static Object plain(JsonNode node) {
        if (node.isNumber()) {
            return node.asDouble();
        }
        if (node.isArray()) {
            return node.valueStream().map(RecipeReaderTest::plain).toList();
        }
        return node.isObject()
                ? node.propertyStream().map(entry -> entry.getKey() + "=" + plain(entry.getValue())).sorted().toList()
                : node.asString();
    }

    /** Every documented bound holds, and just beyond it the field is refused at its pointer. */
    @TestFactory
    Stream<DynamicTest> boundsAreTheGeometrysOwn() {
        return Stream.of("openings", "flange", "fillet", "body", "body/notches", "body/screws", "printer", "inspect", "kit", "")
                .flatMap(group -> {
            String schema = switch (group) {
                case "" -> "MoldRecipe";
                case "body/notches" -> "NotchRecipe";
                case "body/screws" -> "ScrewRecipe";
                default -> Character.toUpperCase(group.charAt(0)) + group.substring(1) + "Recipe";
            };
            return SCHEMAS.get(schema).get("properties").propertyStream()
                    .filter(field -> field.getValue().has("minimum"))
                    .map(field -> DynamicTest.dynamicTest(group + "/" + field.getKey(),
                            () -> checkBounds(group, field.getKey(), field.getValue())));
        });
    }

    private static void checkBounds(String group, String name, JsonNode schema) {
        String pointer = (group.isEmpty() ? "" : "/" + group) + "/" + name;
        for (String bound : new String[] {"minimum", "maximum"}) {
            double limit = schema.get(bound).asDouble();
            boolean whole = schema.get("type").asString().equals("integer");
            READER.read(with(group, name, whole ? String.valueOf((long) limit) : String.valueOf(limit)));
            double step = (bound.equals("minimum") ? -1 : 1) * (whole ? 1 : 1e-3);
            String beyond = whole ? String.valueOf((long) (limit + step)) : String.valueOf(limit + step);
            List<FieldError> errors = errors(with(group, name, beyond));
            assertEquals(List.of(pointer), errors.stream().map(FieldError::pointer).toList());
            assertEquals("out-of-range", errors.get(0).code());
        }
    }

    private static String with(String group, String name, String value) {
        String json = "{\"" + name + "\":" + value + "}";
        String[] groups = group.isEmpty() ? new String[0] : group.split("/");
        for (int i = groups.length - 1; i >= 0; i--) {
            json = "{\"" + groups[i] + "\":" + json + "}";
        }
        return json;
    }

    @Test
    void wordsFindTheirMeaning() {
        Recipe recipe = READER.read("""
                {"unit":"in","keep":{"seed":[1,2,3]},"layup":{"plies":[{"weave":"chopped-mat"}]},"pull":[0,0,2]}""")
                .geometry();
        assertEquals(LengthUnit.INCH, recipe.unit());
        assertEquals(new Keep.Seed(1, 2, 3), recipe.keep());
        assertEquals(Weave.CHOPPED_MAT, recipe.layup().plies().get(0).weave());
        assertEquals(1, recipe.pull().z);
    }

    @Test
    void aFibreBringsItsDensity() {
        for (FibreKind kind : FibreKind.values()) {
            String name = kind.name().toLowerCase().replace('_', '-');
            Ply ply = READER.read("{\"layup\":{\"plies\":[{\"fibre\":\"" + name + "\",\"tow\":\"3K\"}]}}").geometry()
                    .layup().plies().get(0);
            assertEquals(MaterialTables.fibre(name).density(), ply.fibreDensity());
            assertEquals(name, ply.fibre());
            assertEquals("3K", ply.tow());
        }
        assertEquals(MaterialTables.fibres().size(), FibreKind.values().length);
    }

    @Test
    void aResinTakesFromItsRowWhatIsNotSaid() {
        ResinSpec resin = READER.read("{\"kit\":{\"resin\":{\"like\":\"vinyl-ester\",\"mixBy\":\"volume\"}}}").kit().resin();
        // 2 g to 100 g of 1.06 g/cm³ are 2/1.15 ml to 100/1.06 ml.
        assertEquals(2 * 1.06 / 1.15, resin.hardenerPer100(), 1e-12);
        assertEquals(0.02, resin.hardenerPerResinByMass(), 1e-12);
        for (ResinKind kind : ResinKind.values()) {
            String like = "{\"kit\":{\"coatResin\":{\"like\":\"" + kind.name().toLowerCase().replace('_', '-') + "\"}}}";
            assertEquals(KitMapping.rowName(kind), READER.read(like).kit().coatResin().name());
        }
        assertEquals(MaterialTables.resins().size(), ResinKind.values().length);
    }

    @Test
    void theHashIsOfTheEffectiveRecipe() {
        AcceptedRecipe usual = READER.read("{}");
        assertEquals(Sha256.hex(usual.json().getBytes()), usual.hash());
        assertEquals(usual.hash(), READER.read("{\"tool\":\"female\",\"releaseMm\":5e-2}").hash());
        assertNotEquals(usual.hash(), READER.read("{\"releaseMm\":0.06}").hash());
        assertEquals(usual, READER.readStored(usual.json()));
    }

    @ParameterizedTest
    @CsvSource(delimiter = ';', value = {
        "{'keep':{}};                                   /keep;               missing",
        "{'keep':{'side':'outer','seed':[0,0,0]}};      /keep;               not-allowed",
        "{'keep':{'seed':[0,0]}};                       /keep/seed;          out-of-range",
        "{'pull':[1,2,'3']};                            /pull/2;             wrong-type",
        "{'pull':[0,0,0]};                              /pull;               not-allowed",
        "{'title':''};                                  /title;              out-of-range",
        "{'title':null};                                /title;              wrong-type",
        "{'a/b~c':1};                                   /a~1b~0c;            unknown-field",
        "{'inspect':{'wallLines':1.5}};                 /inspect/wallLines;  wrong-type",
        "{'layup':{'plies':[]}};                        /layup/plies;        out-of-range",
        "{'releaseMm':1e999};                           /releaseMm;          wrong-type"})
    void aMistakeIsToldWhereItIs(String recipe, String pointer, String code) {
        List<FieldError> errors = errors(recipe.replace('\'', '"'));
        assertEquals(pointer, errors.get(0).pointer(), errors::toString);
        assertEquals(code, errors.get(0).code(), errors::toString);
    }

    @Test
    void aRecipeNestedWithoutEndIsMalformedAndNothingWorse() {
        ProblemException problem = assertThrows(ProblemException.class,
                () -> READER.read("{\"flange\":" + "[".repeat(50_000)));
        assertEquals(ProblemKind.MALFORMED_JSON, problem.kind());
    }

    private static List<FieldError> errors(String recipe) {
        ProblemException problem = assertThrows(ProblemException.class, () -> READER.read(recipe), recipe);
        assertEquals(ProblemKind.RECIPE_INVALID, problem.kind());
        return problem.problem().errors();
    }
}
