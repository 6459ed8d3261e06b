package layupmold.api.webhook;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * Where events are wanted.
 *
 * @param url address that takes POST requests
 * @param types types of events wanted; absent for all
 * @param secret {@code whsec_} and 24 to 64 bytes in Base64; absent to have one made
 */
@Serdeable
public record NewWebhook(
        String url,
        List<String> types,
        String secret) {
}
