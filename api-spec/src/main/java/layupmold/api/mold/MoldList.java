package layupmold.api.mold;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * A page of molds, newest first.
 *
 * @param items the molds
 * @param next path of the next page, or null at the end
 */
@Serdeable
public record MoldList(
        List<MoldResource> items,
        String next) {
}
