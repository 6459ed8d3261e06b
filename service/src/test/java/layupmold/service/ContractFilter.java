package layupmold.service;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.networknt.schema.Error;
import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.dialect.Dialects;
import io.restassured.filter.Filter;
import io.restassured.filter.FilterContext;
import io.restassured.response.Response;
import io.restassured.specification.FilterableRequestSpecification;
import io.restassured.specification.FilterableResponseSpecification;
import java.net.URI;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import layupmold.api.ContractDocument;
import org.springframework.http.MediaType;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;
import tools.jackson.dataformat.yaml.YAMLMapper;

/**
 * Holds every answer against the OpenAPI document: the status must be documented for the operation, required headers
 * there, the media type named, and JSON must fit the schema, with no member that the schema does not name.
 */
public final class ContractFilter implements Filter {

    private static final String BASE = "https://layupmold.invalid/contract";
    private static final JsonNode CONTRACT = closed(YAMLMapper.shared().readTree(ContractDocument.yaml()));
    private static final SchemaRegistry SCHEMAS = SchemaRegistry.withDialect(Dialects.getOpenApi31(),
            registry -> registry.schemas(Map.of(BASE, CONTRACT.toString())));

    @Override
    public Response filter(FilterableRequestSpecification request, FilterableResponseSpecification expected,
            FilterContext context) {
        Response response = context.next(request, expected);
        check(request.getMethod(), URI.create(request.getURI()).getPath(), response);
        return response;
    }

    private static void check(String method, String path, Response response) {
        Optional<String> template = template(path);
        if (template.isEmpty()) {
            return;
        }
        String verb = method.toLowerCase(Locale.ROOT).equals("head") ? "get" : method.toLowerCase(Locale.ROOT);
        JsonNode operation = CONTRACT.at("/paths/" + escape(template.get()) + "/" + verb);
        if (operation.isMissingNode()) {
            assertEquals(405, response.statusCode(), method + " " + path + " is not in the contract");
            return;
        }
        String pointer = "/paths/" + escape(template.get()) + "/" + verb + "/responses/" + response.statusCode();
        JsonNode documented = CONTRACT.at(pointer);
        assertTrue(documented.isObject(), "the contract has no " + response.statusCode() + " for " + method + " " + path
                + ": " + response.asString());
        while (documented.has("$ref")) {
            pointer = documented.get("$ref").asString().substring(1);
            documented = CONTRACT.at(pointer);
        }
        checkHeaders(documented.path("headers"), response);
        if (response.contentType().isEmpty() || response.asByteArray().length == 0) {
            return;
        }
        MediaType type = MediaType.parseMediaType(response.contentType());
        String name = type.getType() + "/" + type.getSubtype();
        assertNotNull(documented.at("/content").get(name),
                "the contract has no " + name + " for " + method + " " + path + " " + response.statusCode());
        if (name.endsWith("json")) {
            checkJson(pointer + "/content/" + escape(name) + "/schema", response.asString());
        }
    }

    private static void checkHeaders(JsonNode headers, Response response) {
        headers.properties().forEach(header -> {
            JsonNode definition = header.getValue().has("$ref")
                    ? CONTRACT.at(header.getValue().get("$ref").asString().substring(1)) : header.getValue();
            if (definition.path("required").asBoolean(false)) {
                assertNotNull(response.header(header.getKey()), "there is no " + header.getKey());
            }
        });
    }

    private static void checkJson(String schema, String json) {
        List<Error> errors = SCHEMAS.getSchema(SchemaLocation.of(BASE + "#" + schema)).validate(json, InputFormat.JSON);
        assertTrue(errors.isEmpty(), errors + " in " + json);
    }

    private static Optional<String> template(String path) {
        return CONTRACT.get("paths").propertyNames().stream()
                .filter(template -> path.matches(template.replaceAll("\\{[^}]+}", "[^/]+")))
                .min(Comparator.comparing(template -> template.contains("{")));
    }

    private static String escape(String segment) {
        return segment.replace("~", "~0").replace("/", "~1");
    }

    /** The contract leaves its answers room to grow; the tests do not. */
    private static JsonNode closed(JsonNode node) {
        if (node instanceof ObjectNode object && object.has("properties") && object.has("type")
                && !object.has("additionalProperties")) {
            object.put("additionalProperties", false);
        }
        node.forEach(ContractFilter::closed);
        return node;
    }
}
