package layupmold.api.access;

import io.micronaut.serde.annotation.Serdeable;
import java.time.Instant;
import java.util.List;

/**
 * A key.
 *
 * @param id names the key without giving it away
 * @param owner who uses it
 * @param name what it is for, or null
 * @param scopes what it allows
 * @param requestsPerMinute most requests a minute, or null
 * @param maxPartBytes largest part it may post, or null
 * @param createdAt when it was made
 * @param expiresAt when it stops to work, or null for never
 * @param key what to send as bearer token; told once, when it is made, and null ever after
 */
@Serdeable
public record KeyResource(
        String id,
        String owner,
        String name,
        List<AccessScope> scopes,
        Integer requestsPerMinute,
        Long maxPartBytes,
        Instant createdAt,
        Instant expiresAt,
        String key) {
}
