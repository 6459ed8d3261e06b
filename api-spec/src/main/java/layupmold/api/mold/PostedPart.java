package layupmold.api.mold;

import io.micronaut.serde.annotation.Serdeable;

/**
 * The mesh as it was posted.
 *
 * @param name file name given with it, or null
 * @param bytes its size
 * @param sha256 hash of its bytes, hexadecimal
 */
@Serdeable
public record PostedPart(
        String name,
        long bytes,
        String sha256) {
}
