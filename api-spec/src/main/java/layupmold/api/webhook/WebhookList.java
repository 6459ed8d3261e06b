package layupmold.api.webhook;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/** @param items oldest first */
@Serdeable
public record WebhookList(
        List<WebhookResource> items) {
}
