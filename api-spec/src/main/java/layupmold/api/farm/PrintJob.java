package layupmold.api.farm;

import io.micronaut.serde.annotation.Serdeable;
import java.time.Instant;

/**
 * Prints of one mold.
 *
 * @param id opaque identifier
 * @param order the order it came with
 * @param mold path of the mold
 * @param name what it is called
 * @param priority higher ones come first
 * @param quantity prints wanted
 * @param waiting prints that nobody has taken
 * @param leased prints under way
 * @param done prints made
 * @param failed prints given up
 * @param reason why a print failed last, or null
 * @param createdAt when it was asked for
 */
@Serdeable
public record PrintJob(
        String id,
        String order,
        String mold,
        String name,
        int priority,
        int quantity,
        int waiting,
        int leased,
        int done,
        int failed,
        String reason,
        Instant createdAt) {
}
