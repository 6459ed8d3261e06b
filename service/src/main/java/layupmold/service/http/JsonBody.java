package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import layupmold.api.ContractJson;
import layupmold.api.problem.FieldError;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.recipe.ContractSchemas;
import org.springframework.stereotype.Component;

/** Reads small JSON bodies: bounded, and against the contract first. */
@Component
class JsonBody {

    private static final long MOST_BYTES = 64 << 10;
    private static final long MOST_NANOS = 30_000_000_000L;

    private final ContractSchemas schemas;

    JsonBody(ContractSchemas schemas) {
        this.schemas = schemas;
    }

    /** @throws ProblemException if the body is not JSON or breaks the schema that has the type's name */
    <T> T read(HttpServletRequest request, Class<T> type) throws IOException {
        byte[] body = new BoundedBody(request.getInputStream(), MOST_BYTES, MOST_NANOS).readAllBytes();
        List<FieldError> errors = schemas.check(type.getSimpleName(), new String(body, StandardCharsets.UTF_8));
        if (!errors.isEmpty()) {
            throw new ProblemException(ProblemKind.BODY_INVALID,
                    errors.size() == 1 ? "One field is wrong." : errors.size() + " fields are wrong.", null, errors, List.of());
        }
        try {
            return ContractJson.read(body, type);
        } catch (IOException e) {
            throw new ProblemException(ProblemKind.MALFORMED_JSON, "The body cannot be read: " + e.getMessage());
        }
    }
}
