package layupmold.api.batch;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * A page of suits, newest first.
 *
 * @param items the suits
 * @param next path of the next page, or null at the end
 */
@Serdeable
public record BatchList(
        List<BatchResource> items,
        String next) {
}
