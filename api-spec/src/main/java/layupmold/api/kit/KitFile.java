package layupmold.api.kit;

import io.micronaut.serde.annotation.Serdeable;

/**
 * One file of the kit.
 *
 * @param href relative to the kit document
 * @param mediaType what it is
 */
@Serdeable
public record KitFile(
        String href,
        String mediaType) {
}
