package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;

/**
 * What makes the tool surface a printable solid.
 *
 * @param kind block or shell
 * @param wallMm least wall thickness anywhere
 * @param feet that a shell stands on
 * @param ribMm how far a shell's stiffening rib reaches below the border
 * @param notches pry notches
 * @param screws screw holes
 */
@Serdeable
public record BodyRecipe(
        BodyKind kind,
        Double wallMm,
        Integer feet,
        Double ribMm,
        NotchRecipe notches,
        ScrewRecipe screws) {
}
