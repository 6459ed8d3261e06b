package layupmold.service.access;

import java.time.Instant;
import java.util.Set;
import layupmold.api.access.AccessScope;

/**
 * A key as it is kept.
 *
 * @param secretHash hexadecimal SHA-256 of its secret
 */
public record ApiKey(
        String id,
        String secretHash,
        String owner,
        String name,
        Set<AccessScope> scopes,
        Integer requestsPerMinute,
        Long maxPartBytes,
        Instant createdAt,
        Instant expiresAt) {

    boolean isValidAt(Instant now) {
        return expiresAt == null || now.isBefore(expiresAt);
    }
}
