package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * Which wall of the part the laminate copies: a side or a seed point, not both.
 *
 * @param side outer or inner wall
 * @param seed three coordinates in the posted mesh's own frame and unit; the wall nearest to them is kept
 */
@Serdeable
public record KeepRecipe(
        WallSide side,
        List<Double> seed) {
}
