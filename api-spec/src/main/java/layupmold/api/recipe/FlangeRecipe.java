package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;

/**
 * The surface beyond the perimeter that carries excess fabric.
 *
 * @param widthMm least width of the level border
 * @param draftDeg least draft of the wall between perimeter and border
 * @param riseMm how far the border's plane lies beyond the perimeter's farthest point along the pull
 * @param edgeRadiusMm radius of the edge between wall and border
 * @param trimLineDepthMm depth of the mark at the perimeter and around openings; 0 for none
 */
@Serdeable
public record FlangeRecipe(
        Double widthMm,
        Double draftDeg,
        Double riseMm,
        Double edgeRadiusMm,
        Double trimLineDepthMm) {
}
