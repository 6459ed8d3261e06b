package layupmold.api;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;

/** The OpenAPI document. */
public final class ContractDocument {

    /** Where it lies on the class path. */
    public static final String RESOURCE = "layupmold/api/openapi.yaml";

    private ContractDocument() {
    }

    /** The document as UTF-8 YAML. */
    public static byte[] yaml() {
        try (InputStream document = ContractDocument.class.getResourceAsStream("openapi.yaml")) {
            return document.readAllBytes();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
