package layupmold.service.farm;

import java.time.Instant;

/** A print job as the database has it, with its copies counted. */
public record PrintRow(
        String id, String orderId, String moldId, String name, int priority, int quantity, int waiting, int leased,
        int done, int failed, String reason, Instant createdAt) {
}
