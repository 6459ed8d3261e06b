package layupmold.api.farm;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * Print jobs that are not finished, the most urgent first.
 *
 * @param items at most 500
 */
@Serdeable
public record PrintList(
        List<PrintJob> items) {
}
