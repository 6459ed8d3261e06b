package layupmold.service.recipe;

import com.networknt.schema.Error;
import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaLocation;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.dialect.Dialects;
import com.networknt.schema.path.PathType;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import layupmold.api.ContractDocument;
import layupmold.api.problem.FieldError;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import org.springframework.boot.context.event.ApplicationReadyEvent;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;
import tools.jackson.core.JacksonException;

/** Checks posted JSON against the schemas in the contract itself, so that the two cannot drift apart. */
@Component
public class ContractSchemas {

    private static final Map<String, String> CODES = Map.ofEntries(
            Map.entry("additionalProperties", "unknown-field"),
            Map.entry("type", "wrong-type"),
            Map.entry("required", "missing"),
            Map.entry("minProperties", "missing"),
            Map.entry("minimum", "out-of-range"),
            Map.entry("maximum", "out-of-range"),
            Map.entry("minItems", "out-of-range"),
            Map.entry("maxItems", "out-of-range"),
            Map.entry("minLength", "out-of-range"),
            Map.entry("maxLength", "out-of-range"),
            Map.entry("pattern", "malformed"));

    private final SchemaRegistry registry = SchemaRegistry.withDialect(Dialects.getOpenApi31());
    private final Map<String, Schema> schemas = new ConcurrentHashMap<>();

    /**
     * What is wrong with a document, in the order of its JSON Pointers; empty if nothing is.
     *
     * @param name of a schema in the contract
     * @throws ProblemException if it is not JSON at all
     */
    public List<FieldError> check(String name, String json) {
        Schema schema = schema(name);
        try {
            return schema.validate(json, InputFormat.JSON).stream()
                    .map(ContractSchemas::toFieldError)
                    .sorted(Comparator.comparing(FieldError::pointer).thenComparing(FieldError::code))
                    .distinct()
                    .toList();
        } catch (JacksonException | IllegalArgumentException e) {
            throw new ProblemException(ProblemKind.MALFORMED_JSON, "This is not JSON: " + firstLine(e));
        }
    }

    /** Reading the contract takes a second or two, which the first client need not wait for. */
    @EventListener(ApplicationReadyEvent.class)
    void readAhead() {
        Thread reader = new Thread(() -> check("MoldRecipe", "{}"), "contract-reader");
        reader.setDaemon(true);
        reader.start();
    }

    private Schema schema(String name) {
        return schemas.computeIfAbsent(name, key -> registry.getSchema(
                SchemaLocation.of("classpath:" + ContractDocument.RESOURCE + "#/components/schemas/" + key)));
    }

    private static FieldError toFieldError(Error error) {
        String pointer = PathType.JSON_POINTER == error.getInstanceLocation().getPathType()
                ? error.getInstanceLocation().toString() : "";
        if (error.getKeyword().equals("additionalProperties")) {
            String name = error.getProperty();
            return new FieldError(pointer + "/" + name.replace("~", "~0").replace("/", "~1"), "unknown-field",
                    "There is no field \"" + name + "\" here.");
        }
        if (error.getKeyword().equals("contains")) {
            return new FieldError(pointer, "not-allowed", "must not be the zero vector");
        }
        String code = CODES.getOrDefault(error.getKeyword(), "not-allowed");
        return new FieldError(pointer, code, error.getMessage());
    }

    private static String firstLine(Exception e) {
        String message = e instanceof JacksonException parse ? parse.getOriginalMessage() : e.getMessage();
        return String.valueOf(message).lines().findFirst().orElse("").strip();
    }
}
