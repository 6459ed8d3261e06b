package layupmold.service.batch;

import java.util.Map;
import java.util.Set;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

/** Lays one recipe over another, field by field. */
final class RecipeLayers {

    /** Fields whose members exclude each other: the upper one replaces the lower whole. */
    private static final Set<String> WHOLE = Set.of("keep");

    private RecipeLayers() {
    }

    /** Every field of {@code upper} replaces that of {@code lower}; objects within are laid over alike, lists replaced. */
    static ObjectNode lay(ObjectNode lower, ObjectNode upper) {
        for (Map.Entry<String, JsonNode> field : upper.properties()) {
            if (field.getValue() instanceof ObjectNode over && lower.get(field.getKey()) instanceof ObjectNode under
                    && !WHOLE.contains(field.getKey())) {
                lay(under, over);
            } else {
                lower.set(field.getKey(), field.getValue().deepCopy());
            }
        }
        return lower;
    }
}
