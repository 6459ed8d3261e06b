package layupmold.service.jobs;

import java.util.Locale;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Finding;
import layupmold.service.store.Blob;

/**
 * That a mold's part is congruent to another one, whose mold is carried over to it.
 *
 * @param mold the other part's mold
 * @param part the other part's bytes; the store keeps them as long as this mold
 * @param partFile their file name, or null
 * @param title what the other part is called
 * @param map from the other part to this one, mm
 * @param deviationMm greatest distance between the surfaces
 */
public record Like(String mold, Blob part, String partFile, String title, Isometry map, double deviationMm) {

    /** The finding that tells the reader of a report. */
    public Finding note(double toleranceMm) {
        return map.mirrors()
                ? Finding.info("suit", "mold-mirrored", String.format(Locale.ROOT,
                        "By its shape this part is the mirror image of %s: its mold is that one's mirror image.", title))
                        .measured(deviationMm, toleranceMm, "mm")
                        .advising("Ply angles are those of this part's recipe, in its mold's plan. Where the manifest "
                                + "calls a part the mirror image of another (mirrorOf) and gives it no plies of its own, "
                                + "they are mirrored too.")
                : Finding.info("suit", "mold-reused", String.format(Locale.ROOT,
                        "By its shape this part is the same as %s: one mold serves both.", title))
                        .measured(deviationMm, toleranceMm, "mm");
    }
}
