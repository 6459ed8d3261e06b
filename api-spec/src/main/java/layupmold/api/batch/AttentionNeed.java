package layupmold.api.batch;

import io.micronaut.serde.annotation.Serdeable;

/**
 * Why somebody should look at a part.
 *
 * @param part its name
 * @param reason in words
 */
@Serdeable
public record AttentionNeed(
        String part,
        String reason) {
}
