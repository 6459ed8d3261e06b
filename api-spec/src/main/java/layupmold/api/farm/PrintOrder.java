package layupmold.api.farm;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * What came of an order.
 *
 * @param id opaque identifier
 * @param items a job for every mold
 */
@Serdeable
public record PrintOrder(
        String id,
        List<PrintJob> items) {
}
