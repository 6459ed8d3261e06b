package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;

/**
 * Pry notches in the border's outer edge.
 *
 * @param count how many; 0 for none
 * @param widthMm along the outline
 * @param depthMm from the outline inwards
 * @param heightMm from the border down
 */
@Serdeable
public record NotchRecipe(
        Integer count,
        Double widthMm,
        Double depthMm,
        Double heightMm) {
}
