package layupmold.api.kit;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * What a suit's parts take together, their plies nested on common rolls.
 *
 * @param batch path of the suit
 * @param parts a name a piece, in the manifest's order
 * @param missing names of parts without a mold
 * @param cloths a cut layout a cloth
 * @param resins a line a resin and purpose
 * @param cups mixing cups
 * @param brushes brushes
 * @param glovePairs pairs of gloves
 * @param laminateMm2 area of all trimmed pieces
 * @param files what there is to print, relative to this document
 */
@Serdeable
public record SuitKitDocument(
        String batch,
        List<String> parts,
        List<String> missing,
        List<ClothFigures> cloths,
        List<ResinNeed> resins,
        Integer cups,
        Integer brushes,
        Integer glovePairs,
        Double laminateMm2,
        List<KitFile> files) {
}
