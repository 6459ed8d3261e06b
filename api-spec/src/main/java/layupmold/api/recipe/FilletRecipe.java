package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;

/**
 * What becomes of corners that are too tight for the cloth.
 *
 * @param fill whether they are filled; else they are reported only
 * @param radiusMm least concave radius of the tool surface; absent for the least that the cloth follows
 */
@Serdeable
public record FilletRecipe(
        Boolean fill,
        Double radiusMm) {
}
