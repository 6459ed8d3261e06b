package layupmold.service.farm;

import java.time.Instant;
import layupmold.api.farm.LeaseStatus;
import layupmold.api.recipe.PrintMaterial;
import layupmold.service.store.Blob;

/** A lease as the database has it. */
public record LeaseRow(
        String id, String owner, String agent, LeaseStatus status, PrintMaterial material, Blob plate,
        Instant createdAt, Instant expiresAt) {
}
