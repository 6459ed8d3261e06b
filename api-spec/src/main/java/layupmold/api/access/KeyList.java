package layupmold.api.access;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * Every key there is.
 *
 * @param items the keys, oldest first
 */
@Serdeable
public record KeyList(List<KeyResource> items) {
}
