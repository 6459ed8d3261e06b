package layupmold.api.batch;

import io.micronaut.serde.annotation.Serdeable;
import java.time.Instant;
import java.util.List;

/**
 * A suit on its way to its molds.
 *
 * @param id opaque identifier
 * @param status where it stands
 * @param percent mean of its parts' shares, 0 to 100
 * @param title from the manifest, or null
 * @param parts in the manifest's order
 * @param createdAt when it was accepted
 * @param expiresAt when it will be forgotten, or null
 * @param links where to go from here
 */
@Serdeable
public record BatchResource(
        String id,
        BatchStatus status,
        int percent,
        String title,
        List<BatchPart> parts,
        Instant createdAt,
        Instant expiresAt,
        BatchLinks links) {
}
