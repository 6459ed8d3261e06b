package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.util.Set;
import org.springframework.http.MediaType;

/** Media types of parts and molds. */
final class Media {

    static final MediaType STL = MediaType.valueOf("model/stl");
    static final MediaType THREE_MF = MediaType.valueOf("model/3mf");
    static final MediaType GLB = MediaType.valueOf("model/gltf-binary");
    static final MediaType SVG = MediaType.valueOf("image/svg+xml");
    static final MediaType JSON = MediaType.APPLICATION_JSON;
    static final MediaType PROBLEM = MediaType.APPLICATION_PROBLEM_JSON;

    private static final Set<String> PARTS = Set.of(
            "application/octet-stream",
            "model/stl", "model/x.stl-binary", "model/x.stl-ascii", "application/sla", "application/vnd.ms-pki.stl",
            "model/obj",
            "application/x-ply", "model/ply",
            "model/3mf", "application/vnd.ms-package.3dmanufacturing-3dmodel+xml");

    private Media() {
    }

    /** Whether a raw body of this type may be a part; what it really is shows in its content. */
    static boolean isPart(MediaType type) {
        return PARTS.contains(type.getType() + "/" + type.getSubtype());
    }

    /** What the request says its body is, or null if it says nothing that can be read. */
    static MediaType of(HttpServletRequest request) {
        String header = request.getContentType();
        try {
            return header == null ? null : MediaType.parseMediaType(header);
        } catch (IllegalArgumentException e) {
            return null;
        }
    }

    static String partTypes() {
        return "multipart/form-data, " + String.join(", ", PARTS.stream().sorted().toList());
    }
}
