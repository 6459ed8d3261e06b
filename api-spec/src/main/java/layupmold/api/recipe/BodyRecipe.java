package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;

/**
 * What makes the tool surface a printable solid.
 *
 * @param kind block or shell
 * @param wallMm least wall thickness anywhere
 */
@Serdeable
public record BodyRecipe(
        BodyKind kind,
        Double wallMm) {
}
