package layupmold.service.jobs;

import java.time.Instant;
import layupmold.api.mold.MoldStatus;
import layupmold.service.store.Blob;

/**
 * A mold as the database has it.
 *
 * @param id identifier
 * @param owner who posted the part
 * @param status where it stands
 * @param stage stage being worked on, or null
 * @param percent share of the work done
 * @param attempt how often work on it has begun
 * @param version rises with every change
 * @param lane which queue it is in
 * @param title title from the recipe, or null
 * @param part the posted bytes
 * @param partName their file name, or null
 * @param recipeJson the recipe with all defaults
 * @param recipeHash its hash
 * @param files the results, or null
 * @param problemJson why there are none, or null
 */
public record MoldRow(
        String id,
        String owner,
        MoldStatus status,
        String stage,
        int percent,
        int attempt,
        long version,
        Lane lane,
        String title,
        Blob part,
        String partName,
        String recipeJson,
        String recipeHash,
        MoldFiles files,
        String problemJson,
        Instant createdAt,
        Instant startedAt,
        Instant finishedAt,
        Instant expiresAt) {
}
