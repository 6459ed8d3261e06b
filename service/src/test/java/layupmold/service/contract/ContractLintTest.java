package layupmold.service.contract;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.dialect.Dialects;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiConsumer;
import layupmold.api.ContractDocument;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;
import tools.jackson.dataformat.yaml.YAMLMapper;

/** The rules of our contract that a general linter does not know; CI runs one of those besides. */
class ContractLintTest {

    private static final String BASE = "https://layupmold.invalid/contract";
    private static final JsonNode CONTRACT = YAMLMapper.shared().readTree(ContractDocument.yaml());
    private static final Set<String> VERBS = Set.of("get", "put", "post", "delete", "patch");

    /** Files inside zips and what webhooks are sent, which no operation can name. */
    private static final Set<String> BESIDES = Set.of("#/components/schemas/SuitManifest",
            "#/components/schemas/BundleContents", "#/components/schemas/CloudEvent");

    private static void operations(BiConsumer<String, JsonNode> with) {
        CONTRACT.get("paths").properties().forEach(path -> path.getValue().properties().stream()
                .filter(entry -> VERBS.contains(entry.getKey()))
                .forEach(entry -> with.accept(entry.getKey() + " " + path.getKey(), entry.getValue())));
    }

    @Test
    void operationsHaveNamesSummariesAndKnownTags() {
        Set<String> names = new HashSet<>();
        Set<String> tags = new TreeSet<>();
        CONTRACT.get("tags").forEach(tag -> tags.add(tag.get("name").asString()));
        operations((at, operation) -> {
            assertTrue(names.add(operation.path("operationId").asString("")), at + " has no name of its own");
            assertTrue(operation.path("summary").asString("").length() > 5, at + " has no summary");
            assertEquals(1, operation.path("tags").size(), at);
            assertTrue(tags.contains(operation.path("tags").get(0).asString()), at);
        });
    }

    @Test
    void operationsSayHowTheyAreRefused() {
        operations((at, operation) -> {
            if (at.contains(" /v1/")) {
                for (String status : List.of("401", "403", "429")) {
                    assertTrue(operation.get("responses").has(status), at + " does not name " + status);
                }
                JsonNode security = operation.path("security");
                assertTrue(at.startsWith("get ") || security.size() > 0, at + " names no scope");
            }
            if (at.startsWith("post ")) {
                assertTrue(operation.toString().contains("#/components/parameters/IdempotencyKey"), at);
            }
        });
    }

    @Test
    void problemsAreProblems() {
        operations((at, operation) -> operation.get("responses").properties().stream()
                .filter(response -> response.getKey().charAt(0) >= '4')
                .forEach(response -> {
                    JsonNode answer = response.getValue();
                    JsonNode resolved = answer.has("$ref") ? CONTRACT.at(answer.get("$ref").asString().substring(1)) : answer;
                    assertEquals("#/components/schemas/Problem", resolved.at("/content/application~1problem+json/schema/$ref")
                            .asString(""), at + " " + response.getKey());
                }));
    }

    @Test
    void referencesHitAndEveryComponentIsUsed() {
        Set<String> used = new TreeSet<>();
        references(CONTRACT, used);
        used.forEach(reference -> assertTrue(!CONTRACT.at(reference.substring(1)).isMissingNode(), reference));
        Set<String> there = new TreeSet<>();
        CONTRACT.get("components").properties().stream().filter(kind -> !kind.getKey().equals("securitySchemes"))
                .forEach(kind -> kind.getValue().propertyNames()
                        .forEach(name -> there.add("#/components/" + kind.getKey() + "/" + name)));
        used.addAll(BESIDES);
        assertEquals(there, used);
    }

    private static void references(JsonNode node, Set<String> into) {
        if (node.has("$ref")) {
            into.add(node.get("$ref").asString());
        }
        node.forEach(child -> references(child, into));
    }

    @Test
    void examplesFitTheirSchemas() {
        SchemaRegistry schemas = SchemaRegistry.withDialect(Dialects.getOpenApi31(),
                registry -> registry.schemas(Map.of(BASE, CONTRACT.toString())));
        List<String> wrong = new ArrayList<>();
        int count = examples(CONTRACT, "", schemas, wrong);
        assertTrue(count >= 5, "only " + count + " examples");
        assertEquals(List.of(), wrong);
    }

    private static int examples(JsonNode node, String pointer, SchemaRegistry schemas, List<String> wrong) {
        int count = 0;
        if (node.has("schema") && node.has("examples")) {
            for (JsonNode listed : node.get("examples")) {
                JsonNode example = listed.has("$ref") ? CONTRACT.at(listed.get("$ref").asString().substring(1)) : listed;
                schemas.getSchema(SchemaLocation.of(BASE + "#" + pointer + "/schema"))
                        .validate(example.get("value").toString(), InputFormat.JSON)
                        .forEach(error -> wrong.add(pointer + " " + error));
                count++;
            }
        }
        for (Map.Entry<String, JsonNode> child : node.properties()) {
            count += examples(child.getValue(), pointer + "/" + child.getKey().replace("~", "~0").replace("/", "~1"),
                    schemas, wrong);
        }
        return count;
    }
}
