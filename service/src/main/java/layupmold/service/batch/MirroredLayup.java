package layupmold.service.batch;

import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ObjectNode;

/**
 * The layup of a part's mirror image. Its mold is mirrored across x = 0 of the mold's plan, so a thread at an angle from
 * the x axis lies at the negative angle there.
 */
final class MirroredLayup {

    private MirroredLayup() {
    }

    /** @param recipe a complete one */
    static String of(String recipe) {
        JsonNode root = JsonMapper.shared().readTree(recipe);
        for (JsonNode ply : root.at("/layup/plies")) {
            // Not -0.0.
            ((ObjectNode) ply).put("angleDeg", 0.0 - ply.get("angleDeg").asDouble());
        }
        return root.toString();
    }
}
