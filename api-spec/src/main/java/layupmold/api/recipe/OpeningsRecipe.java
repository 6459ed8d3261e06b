package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;

/**
 * What becomes of the part's openings.
 *
 * @param kind capped and cut out after demolding, or moulded net around a raised core plug
 * @param plugHeightMm how far a plug stands over the laminate at its foot's highest point
 * @param plugDraftDeg least draft of a plug's wall
 */
@Serdeable
public record OpeningsRecipe(
        OpeningKind kind,
        Double plugHeightMm,
        Double plugDraftDeg) {
}
