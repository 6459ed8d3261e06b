package layupmold.service.contract;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.function.BiPredicate;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.MissingNode;

/**
 * What a newer OpenAPI document takes from clients of an older one: requests that were fine and are not any more, and
 * answers that a client need not understand. It knows the keywords that our contract uses; a change it cannot judge, such
 * as another pattern, counts as breaking.
 */
final class BreakingChanges {

    /** Who writes the JSON that a schema describes. */
    private enum Writer { CLIENT_IN_QUERY, CLIENT_IN_BODY, SERVICE }

    private static final Set<String> VERBS = Set.of("get", "put", "post", "delete", "patch");
    private static final List<String> LEAST = List.of("minimum", "minLength", "minItems", "minProperties");
    private static final List<String> MOST = List.of("maximum", "maxLength", "maxItems", "maxProperties");
    private static final List<String> WHOLE = List.of("type", "pattern", "format", "contains", "const", "uniqueItems");

    private final JsonNode older;
    private final JsonNode newer;
    private final List<String> found = new ArrayList<>();
    private final Set<String> compared = new HashSet<>();

    private BreakingChanges(JsonNode older, JsonNode newer) {
        this.older = older;
        this.newer = newer;
    }

    /** Each change with its place; empty if clients of the older document can go on. */
    static List<String> between(JsonNode older, JsonNode newer) {
        BreakingChanges changes = new BreakingChanges(older, newer);
        changes.operations((at, path, old, newPath, now) -> changes.request(at, path, old, newPath, now));
        changes.operations((at, path, old, newPath, now) -> changes.responses(at, old, now));
        return changes.found;
    }

    private interface Pair {
        void compare(String at, JsonNode path, JsonNode old, JsonNode newPath, JsonNode now);
    }

    private void operations(Pair pair) {
        older.path("paths").properties().forEach(path -> path.getValue().properties().stream()
                .filter(entry -> VERBS.contains(entry.getKey()))
                .forEach(entry -> {
                    JsonNode newPath = newer.path("paths").path(path.getKey());
                    pair.compare(entry.getKey() + " " + path.getKey(), path.getValue(), entry.getValue(), newPath,
                            newPath.path(entry.getKey()));
                }));
    }

    private void request(String at, JsonNode oldPath, JsonNode old, JsonNode newPath, JsonNode now) {
        if (now.isMissingNode()) {
            found.add(at + " is gone");
            return;
        }
        if (!scopes(old, older).containsAll(scopes(now, newer))) {
            found.add(at + " needs other scopes: " + scopes(now, newer) + ", not " + scopes(old, older));
        }
        parameters(at, parameters(oldPath, old, older), parameters(newPath, now, newer));
        body(at, resolve(old.path("requestBody"), older), resolve(now.path("requestBody"), newer));
    }

    private void responses(String at, JsonNode old, JsonNode now) {
        if (!now.isMissingNode()) {
            old.path("responses").properties().forEach(response -> response(at + " " + response.getKey(),
                    resolve(response.getValue(), older), resolve(now.path("responses").path(response.getKey()), newer)));
        }
    }

    private static Set<String> scopes(JsonNode operation, JsonNode document) {
        JsonNode security = operation.has("security") ? operation.get("security") : document.path("security");
        Set<String> scopes = new TreeSet<>();
        security.forEach(requirement -> requirement.path("bearer").forEach(scope -> scopes.add(scope.asString())));
        return scopes;
    }

    private static List<JsonNode> parameters(JsonNode path, JsonNode operation, JsonNode document) {
        List<JsonNode> all = new ArrayList<>();
        path.path("parameters").forEach(parameter -> all.add(resolve(parameter, document)));
        operation.path("parameters").forEach(parameter -> all.add(resolve(parameter, document)));
        return all;
    }

    private void parameters(String at, List<JsonNode> old, List<JsonNode> now) {
        BiPredicate<JsonNode, JsonNode> same = (a, b) -> a.path("name").equals(b.path("name"))
                && a.path("in").equals(b.path("in"));
        for (JsonNode parameter : old) {
            JsonNode next = now.stream().filter(other -> same.test(parameter, other)).findFirst().orElse(null);
            if (next == null) {
                found.add(at + " no longer takes the parameter " + parameter.path("name").asString());
            } else {
                schema(at + " parameter " + parameter.path("name").asString(), parameter.path("schema"),
                        next.path("schema"), Writer.CLIENT_IN_QUERY);
            }
        }
        for (JsonNode parameter : now) {
            boolean needed = old.stream().anyMatch(
                    other -> same.test(parameter, other) && other.path("required").asBoolean(false));
            if (parameter.path("required").asBoolean(false) && !needed) {
                found.add(at + " now needs the parameter " + parameter.path("name").asString());
            }
        }
    }

    private void body(String at, JsonNode old, JsonNode now) {
        if (!old.path("required").asBoolean(false) && now.path("required").asBoolean(false)) {
            found.add(at + " now needs a body");
        }
        content(at + " body", old, now, Writer.CLIENT_IN_BODY);
    }

    private void response(String at, JsonNode old, JsonNode now) {
        if (now.isMissingNode()) {
            found.add(at + " is gone");
            return;
        }
        old.path("headers").propertyNames().stream().filter(header -> !now.path("headers").has(header))
                .forEach(header -> found.add(at + " no longer has the header " + header));
        content(at, old, now, Writer.SERVICE);
    }

    private void content(String at, JsonNode old, JsonNode now, Writer writer) {
        old.path("content").properties().forEach(type -> {
            if (!now.path("content").has(type.getKey())) {
                found.add(at + " is no longer " + type.getKey());
            } else {
                schema(at + " " + type.getKey(), type.getValue().path("schema"),
                        now.path("content").path(type.getKey()).path("schema"), writer);
            }
        });
    }

    /** What clients send and get back is theirs: it is held against the rules for requests only. */
    private void schema(String at, JsonNode oldReference, JsonNode newReference, Writer writer) {
        if (oldReference.has("$ref") && newReference.has("$ref")) {
            String pair = oldReference.get("$ref") + " " + newReference.get("$ref");
            boolean echo = writer == Writer.SERVICE && compared.contains(Writer.CLIENT_IN_BODY + pair);
            if (echo || !compared.add(writer + pair)) {
                return;
            }
        }
        JsonNode old = resolve(oldReference, older);
        JsonNode now = resolve(newReference, newer);
        WHOLE.stream().filter(keyword -> !old.path(keyword).equals(now.path(keyword)))
                .filter(keyword -> !(old.path(keyword).isMissingNode() && writer == Writer.SERVICE))
                .filter(keyword -> !(now.path(keyword).isMissingNode() && writer != Writer.SERVICE))
                .forEach(keyword -> found.add(at + " has another " + keyword));
        values(at, old.path("enum"), now.path("enum"), writer);
        bounds(at, old, now, writer);
        properties(at, old, now, writer);
        if (old.has("items") || now.has("items")) {
            schema(at + "/items", old.path("items"), now.path("items"), writer);
        }
    }

    /** A client may not be asked to leave out a word, nor be told one it does not know. */
    private void values(String at, JsonNode old, JsonNode now, Writer writer) {
        Set<String> before = words(old);
        Set<String> after = words(now);
        if (writer != Writer.SERVICE && !after.isEmpty() && (before.isEmpty() || !after.containsAll(before))) {
            found.add(at + " allows fewer values: " + after + ", not " + before);
        }
        if (writer == Writer.SERVICE && !before.isEmpty() && (after.isEmpty() || !before.containsAll(after))) {
            found.add(at + " has new values: " + after + ", not " + before);
        }
    }

    private static Set<String> words(JsonNode values) {
        Set<String> words = new TreeSet<>();
        values.forEach(value -> words.add(value.asString()));
        return words;
    }

    private void bounds(String at, JsonNode old, JsonNode now, Writer writer) {
        for (String keyword : LEAST) {
            bound(at, keyword, old.path(keyword), now.path(keyword), writer, 1);
        }
        for (String keyword : MOST) {
            bound(at, keyword, old.path(keyword), now.path(keyword), writer, -1);
        }
    }

    /** @param sign of a change that tightens the bound */
    private void bound(String at, String keyword, JsonNode old, JsonNode now, Writer writer, int sign) {
        JsonNode must = writer != Writer.SERVICE ? now : old;
        JsonNode was = writer != Writer.SERVICE ? old : now;
        if (!must.isMissingNode() && (was.isMissingNode() || sign * (must.asDouble() - was.asDouble()) > 0)) {
            found.add(at + " has another " + keyword + ": " + now + ", not " + old);
        }
    }

    private void properties(String at, JsonNode old, JsonNode now, Writer writer) {
        Set<String> neededBefore = words(old.path("required"));
        Set<String> neededNow = words(now.path("required"));
        if (writer != Writer.SERVICE && !neededBefore.containsAll(neededNow)) {
            found.add(at + " now needs " + neededNow + ", not only " + neededBefore);
        }
        if (writer == Writer.SERVICE && !neededNow.containsAll(neededBefore)) {
            found.add(at + " no longer always has " + neededBefore + ", only " + neededNow);
        }
        old.path("properties").properties().forEach(property -> {
            if (!now.path("properties").has(property.getKey())) {
                found.add(at + " no longer has " + property.getKey());
            } else {
                schema(at + "/" + property.getKey(), property.getValue(),
                        now.path("properties").path(property.getKey()), writer);
            }
        });
    }

    private static JsonNode resolve(JsonNode node, JsonNode document) {
        JsonNode target = node;
        while (target.has("$ref")) {
            target = document.at(target.get("$ref").asString().substring(1));
        }
        return target == null ? MissingNode.getInstance() : target;
    }
}
