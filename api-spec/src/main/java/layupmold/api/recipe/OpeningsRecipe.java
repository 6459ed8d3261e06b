package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * What becomes of the part's openings.
 *
 * @param kind capped and cut out after demolding, or moulded net around a raised core plug
 * @param plugHeightMm how far a plug stands over the laminate at its foot's highest point
 * @param plugDraftDeg least draft of a plug's wall
 * @param exceptAt points in the mesh's own frame and unit: the opening nearest to each is made the other way
 */
@Serdeable
public record OpeningsRecipe(
        OpeningKind kind,
        Double plugHeightMm,
        Double plugDraftDeg,
        List<List<Double>> exceptAt) {
}
