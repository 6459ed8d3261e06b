package layupmold.api.access;

import io.micronaut.serde.annotation.Serdeable;
import java.time.Instant;
import java.util.List;

/**
 * A key to be made.
 *
 * @param owner who uses it; keys with the same owner see the same molds
 * @param name what it is for, or null
 * @param scopes what it allows
 * @param requestsPerMinute most requests a minute, or null for what the service is configured to
 * @param maxPartBytes largest part it may post, or null for what the service is configured to
 * @param expiresAt when it stops to work, or null for never
 */
@Serdeable
public record NewKey(
        String owner,
        String name,
        List<AccessScope> scopes,
        Integer requestsPerMinute,
        Long maxPartBytes,
        Instant expiresAt) {
}
