package layupmold.service.problem;

import java.net.URI;
import java.util.Locale;

/** Every kind of problem the service tells, with its status. The type URIs are stable. */
public enum ProblemKind {
    BAD_REQUEST(400, "The request cannot be understood"),
    MALFORMED_JSON(400, "This is not JSON"),
    MALFORMED_MULTIPART(400, "The multipart body cannot be read"),
    PART_MISSING(400, "No part was posted"),
    UNAUTHENTICATED(401, "Access needs a key"),
    FORBIDDEN(403, "The key does not allow this"),
    NOT_FOUND(404, "There is nothing here"),
    METHOD_NOT_ALLOWED(405, "This method does not work here"),
    NOT_ACCEPTABLE(406, "None of the accepted media types can be given"),
    UPLOAD_TOO_SLOW(408, "The upload took too long"),
    NOT_READY(409, "There is nothing to give yet"),
    LEASE_LOST(409, "The lease does not hold any more"),
    KEY_IN_USE(409, "A request with this key is still running"),
    PART_TOO_LARGE(413, "The part is too large"),
    UNSUPPORTED_MEDIA_TYPE(415, "This media type is not read here"),
    PRECONDITION_FAILED(412, "The precondition does not hold"),
    BODY_INVALID(422, "The body cannot be accepted"),
    SUIT_INVALID(422, "The suit cannot be accepted"),
    RECIPE_INVALID(422, "The recipe cannot be accepted"),
    PART_REJECTED(422, "No mold can be made of this part"),
    KIT_REFUSED(422, "This cannot be made of the mold"),
    TIME_LIMIT(422, "The part takes longer than the service allows"),
    OUT_OF_MEMORY(422, "The part needs more memory than the service has"),
    KEY_REUSED(422, "This key was used for another request"),
    CANCELLED(409, "The mold was cancelled"),
    TOO_MANY_REQUESTS(429, "Too many requests"),
    INTERNAL(500, "Something went wrong in the service"),
    GIVEN_UP(500, "The work failed again and again"),
    OVERLOADED(503, "The service is busy");

    private final int status;
    private final String title;

    ProblemKind(int status, String title) {
        this.status = status;
        this.title = title;
    }

    public int status() {
        return status;
    }

    public String title() {
        return title;
    }

    /** Last segment of the type URI. */
    public String slug() {
        return name().toLowerCase(Locale.ROOT).replace('_', '-');
    }

    public URI type() {
        return URI.create("https://layupmold.invalid/problems/" + slug());
    }

    /** The kind that fits a bare HTTP status best. */
    public static ProblemKind of(int status) {
        for (ProblemKind kind : values()) {
            if (kind.status == status) {
                return kind;
            }
        }
        return status < 500 ? BAD_REQUEST : INTERNAL;
    }
}
