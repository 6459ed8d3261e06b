package layupmold.service.webhook;

import java.time.Instant;
import layupmold.api.webhook.DeliveryStatus;

/** An event on its way to a webhook, as the database has it. */
public record DeliveryRow(
        String webhookId, String eventId, String type, String subject, long sequence, DeliveryStatus status, int attempts,
        Instant nextAt, String error, String data, Instant happenedAt) {
}
