package layupmold.service.idempotency;

import jakarta.servlet.http.HttpServletRequest;
import layupmold.service.access.Callers;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.store.Sha256;

/**
 * A POST with its Idempotency-Key, if it has one. Keys of different callers or different paths do not meet.
 *
 * @param owner who sent it
 * @param operation what was asked for; paths are told apart by their hash, so that long ones fit too
 * @param key the key, or null
 */
public record KeyedRequest(String owner, String operation, String key) {

    /** The request header. */
    public static final String HEADER = "Idempotency-Key";

    /**
     * Reads the header.
     *
     * @throws ProblemException if the key is empty, too long or not printable ASCII
     */
    public static KeyedRequest of(HttpServletRequest request) {
        String key = request.getHeader(HEADER);
        if (key != null && !key.matches("[\\x21-\\x7e]{1,255}")) {
            throw new ProblemException(ProblemKind.BAD_REQUEST,
                    "An idempotency key has 1 to 255 printable ASCII characters and no spaces.");
        }
        return new KeyedRequest(Callers.owner(request),
                request.getMethod() + " " + Sha256.hex(request.getRequestURI()), key);
    }
}
