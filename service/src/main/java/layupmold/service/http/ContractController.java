package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.util.List;
import layupmold.api.ContractDocument;
import layupmold.service.store.Sha256;
import org.springframework.http.HttpHeaders;
import org.springframework.http.MediaType;
import org.springframework.http.ResponseEntity;
import org.springframework.web.bind.annotation.GetMapping;
import org.springframework.web.bind.annotation.RestController;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.dataformat.yaml.YAMLMapper;

/** Serves the OpenAPI document. */
@RestController
class ContractController {

    private static final MediaType YAML = MediaType.valueOf("application/yaml");

    private final byte[] yaml = ContractDocument.yaml();

    @GetMapping("/openapi.yaml")
    ResponseEntity<byte[]> yaml(HttpServletRequest request) {
        return answer(request, YAML, yaml);
    }

    @GetMapping("/openapi.json")
    ResponseEntity<byte[]> json(HttpServletRequest request) {
        return answer(request, Media.JSON, JsonForm.BYTES);
    }

    private static ResponseEntity<byte[]> answer(HttpServletRequest request, MediaType type, byte[] document) {
        Negotiation.require(request.getHeader(HttpHeaders.ACCEPT), List.of(type));
        return ResponseEntity.ok().contentType(type).eTag('"' + Sha256.hex(document) + '"').body(document);
    }

    /** Made when first asked for, so that the service starts sooner. */
    private static final class JsonForm {
        static final byte[] BYTES = JsonMapper.shared().writeValueAsBytes(
                YAMLMapper.shared().readTree(ContractDocument.yaml()));
    }
}
