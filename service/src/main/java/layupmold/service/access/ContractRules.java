package layupmold.service.access;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import layupmold.api.ContractDocument;
import org.springframework.http.HttpMethod;
import tools.jackson.databind.JsonNode;
import tools.jackson.dataformat.yaml.YAMLMapper;

/** The scope that each operation needs, read from the contract, so that the two cannot drift apart. */
final class ContractRules {

    private static final Set<String> METHODS = Set.of("get", "put", "post", "delete", "patch");

    /**
     * @param scope what the operation needs, or null if it is open to all
     */
    record Rule(HttpMethod method, String path, String scope) {
    }

    private ContractRules() {
    }

    /** Paths without variables come first. */
    static List<Rule> read() {
        JsonNode contract = YAMLMapper.shared().readTree(ContractDocument.yaml());
        List<Rule> rules = new ArrayList<>();
        contract.get("paths").properties().forEach(path -> path.getValue().properties().stream()
                .filter(operation -> METHODS.contains(operation.getKey()))
                .forEach(operation -> {
                    String scope = scope(operation.getValue().has("security")
                            ? operation.getValue().get("security") : contract.path("security"));
                    HttpMethod method = HttpMethod.valueOf(operation.getKey().toUpperCase(Locale.ROOT));
                    rules.add(new Rule(method, path.getKey(), scope));
                    if (method.equals(HttpMethod.GET)) {
                        rules.add(new Rule(HttpMethod.HEAD, path.getKey(), scope));
                    }
                }));
        rules.sort(Comparator.comparing((Rule rule) -> rule.path().contains("{")).thenComparing(Rule::path));
        return rules;
    }

    private static String scope(JsonNode security) {
        for (JsonNode requirement : security) {
            if (requirement.has("bearer")) {
                return requirement.get("bearer").get(0).asString();
            }
        }
        return null;
    }
}
