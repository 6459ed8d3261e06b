package layupmold.api.batch;

import io.micronaut.serde.annotation.Serdeable;
import layupmold.api.mold.MoldStatus;
import layupmold.api.problem.Problem;

/**
 * A part of a suit on its way to a mold.
 *
 * @param name from the manifest
 * @param file from the manifest, or null
 * @param mirrorOf from the manifest, or null
 * @param quantity how many are wanted
 * @param status where its mold stands
 * @param stage the stage being worked on, or null
 * @param percent share of the work done, 0 to 100
 * @param likeness the other part that it was recognised as, or null
 * @param note what to know about it besides, or null
 * @param mold path of its mold, or null while the parts are being compared
 * @param problem why it has no mold, or null
 */
@Serdeable
public record BatchPart(
        String name,
        String file,
        String mirrorOf,
        int quantity,
        MoldStatus status,
        String stage,
        int percent,
        Likeness likeness,
        String note,
        String mold,
        Problem problem) {
}
