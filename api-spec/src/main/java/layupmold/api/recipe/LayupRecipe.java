package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * What the part is made of.
 *
 * @param plies first ply at the tool
 * @param fibreWeightFraction share of fibre in the cured laminate by mass
 * @param matrixDensity cured resin, g/cm³
 * @param finishCoatMm clear coat added after demolding, mm
 */
@Serdeable
public record LayupRecipe(
        List<PlyRecipe> plies,
        Double fibreWeightFraction,
        Double matrixDensity,
        Double finishCoatMm) {
}
