package layupmold.api.problem;

import io.micronaut.serde.annotation.Serdeable;

/**
 * One field of a request that cannot be accepted.
 *
 * @param pointer JSON Pointer (RFC 6901) into the request's JSON
 * @param code what is wrong in one word: unknown-field, wrong-type, out-of-range, not-allowed, missing, malformed
 * @param detail what is wrong, for people
 */
@Serdeable
public record FieldError(
        String pointer,
        String code,
        String detail) {
}
