package layupmold.api.webhook;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/** @param items newest first, at most 200 */
@Serdeable
public record DeliveryList(
        List<Delivery> items) {
}
