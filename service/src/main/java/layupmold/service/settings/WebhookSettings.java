package layupmold.service.settings;

import java.time.Duration;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * Webhooks.
 *
 * @param source what events name as their source
 * @param allowPrivate whether requests may go to this machine and to private and link-local addresses
 * @param allowHttp whether addresses without TLS are taken
 * @param timeout longest time one request may take
 * @param firstRetry pause before the second try; each further pause is {@code backoff} times as long
 * @param backoff see there
 * @param maxTries tries before an event is given up
 * @param senders requests at once on this node
 * @param poll how often this node looks for events that are due
 * @param keep how long events are kept
 * @param most webhooks of one owner
 */
@ConfigurationProperties("layupmold.webhooks")
public record WebhookSettings(
        @DefaultValue("urn:layupmold") String source,
        @DefaultValue("false") boolean allowPrivate,
        @DefaultValue("false") boolean allowHttp,
        @DefaultValue("15s") Duration timeout,
        @DefaultValue("5s") Duration firstRetry,
        @DefaultValue("4") double backoff,
        @DefaultValue("9") int maxTries,
        @DefaultValue("4") int senders,
        @DefaultValue("1s") Duration poll,
        @DefaultValue("30d") Duration keep,
        @DefaultValue("20") int most) {
}
