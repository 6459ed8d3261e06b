package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;

/**
 * Holes through the border for screws that press the laminate off.
 *
 * @param count how many; 0 for none
 * @param diameterMm of each hole
 */
@Serdeable
public record ScrewRecipe(
        Integer count,
        Double diameterMm) {
}
