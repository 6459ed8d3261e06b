package layupmold.api.batch;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;
import layupmold.api.mold.MoldStatus;

/**
 * A part in a bundle.
 *
 * @param name from the manifest
 * @param quantity pieces wanted
 * @param status where its mold stands
 * @param likeness the other part that it was recognised as, or null
 * @param moldIn folder that holds the mold to print for it, or null without one
 * @param files its files in the bundle
 */
@Serdeable
public record BundlePart(
        String name,
        int quantity,
        MoldStatus status,
        Likeness likeness,
        String moldIn,
        List<String> files) {
}
