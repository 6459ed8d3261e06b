package layupmold.api.farm;

import io.micronaut.serde.annotation.Serdeable;
import java.time.Instant;
import java.util.List;
import layupmold.api.recipe.PrintMaterial;

/**
 * A plate that one agent prints, and nobody else while the lease holds.
 *
 * @param id opaque identifier
 * @param agent who took it
 * @param status where it stands
 * @param material what to print it in
 * @param items what stands on it
 * @param expiresAt renew before
 * @param plate path of the plate as 3MF
 */
@Serdeable
public record Lease(
        String id,
        String agent,
        LeaseStatus status,
        PrintMaterial material,
        List<LeaseItem> items,
        Instant expiresAt,
        String plate) {
}
