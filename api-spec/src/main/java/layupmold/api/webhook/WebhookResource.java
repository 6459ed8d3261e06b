package layupmold.api.webhook;

import io.micronaut.serde.annotation.Serdeable;
import java.time.Instant;
import java.util.List;

/**
 * A webhook.
 *
 * @param id opaque identifier
 * @param url address that takes the events
 * @param types types of events sent; empty for all
 * @param enabled false once the address said that it is gone (410)
 * @param waiting events that are still to be sent
 * @param dead events that were given up; they can be replayed
 * @param createdAt when it was made
 * @param secret what events are signed with; in the answer to the request that made it and nowhere else
 */
@Serdeable
public record WebhookResource(
        String id,
        String url,
        List<String> types,
        boolean enabled,
        int waiting,
        int dead,
        Instant createdAt,
        String secret) {
}
