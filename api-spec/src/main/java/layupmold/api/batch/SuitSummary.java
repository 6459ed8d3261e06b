package layupmold.api.batch;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * What a suit needs in all, as far as its molds are there. A mold that serves several parts is printed once; cloth and
 * resin count for every piece wanted.
 *
 * @param batch path of the suit
 * @param title from the manifest, or null
 * @param status where the suit stands
 * @param pieces laminated parts wanted in all
 * @param molds molds to print
 * @param filament by print material
 * @param printHours for all molds, one after the other
 * @param cloths by weave and weight
 * @param resinG resin for laminates and finish coats, losses included
 * @param hardenerG its hardener
 * @param attention parts that need a look, with the reason
 * @param parts in the manifest's order
 * @param basis how the figures were reckoned
 */
@Serdeable
public record SuitSummary(
        String batch,
        String title,
        BatchStatus status,
        int pieces,
        int molds,
        List<FilamentNeed> filament,
        double printHours,
        List<ClothNeed> cloths,
        double resinG,
        double hardenerG,
        List<AttentionNeed> attention,
        List<SuitSummaryPart> parts,
        List<String> basis) {
}
