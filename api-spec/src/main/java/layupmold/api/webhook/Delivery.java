package layupmold.api.webhook;

import io.micronaut.serde.annotation.Serdeable;
import java.time.Instant;

/**
 * An event on its way to a webhook.
 *
 * @param event identifier of the event; its {@code webhook-id}
 * @param type type of the event
 * @param subject what happened to
 * @param status waiting, done or dead
 * @param attempts how often it was sent
 * @param nextAt when it is sent next, or null
 * @param error what went wrong last, or null
 */
@Serdeable
public record Delivery(
        String event,
        String type,
        String subject,
        DeliveryStatus status,
        int attempts,
        Instant nextAt,
        String error) {
}
