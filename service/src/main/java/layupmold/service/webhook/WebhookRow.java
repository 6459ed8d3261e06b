package layupmold.service.webhook;

import java.time.Instant;
import java.util.List;

/**
 * A webhook as the database has it.
 *
 * @param types types of events wanted; empty for all
 */
public record WebhookRow(
        String id, String owner, String url, List<String> types, String secret, boolean enabled, Instant createdAt,
        int waiting, int dead) {

    boolean wants(String type) {
        return types.isEmpty() || types.contains(type);
    }
}
