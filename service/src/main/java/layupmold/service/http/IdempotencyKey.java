package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;

/** Reads the Idempotency-Key header. */
public final class IdempotencyKey {

    private static final String HEADER = "Idempotency-Key";

    private IdempotencyKey() {
    }

    /**
     * The key, or null if the request has none.
     *
     * @throws ProblemException if it is empty, too long or not printable ASCII
     */
    public static String of(HttpServletRequest request) {
        String key = request.getHeader(HEADER);
        if (key != null && !key.matches("[\\x21-\\x7e]{1,255}")) {
            throw new ProblemException(ProblemKind.BAD_REQUEST,
                    "An idempotency key has 1 to 255 printable ASCII characters and no spaces.");
        }
        return key;
    }
}
