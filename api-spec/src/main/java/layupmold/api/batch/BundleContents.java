package layupmold.api.batch;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * The contents list of a bundle.
 *
 * @param batch path of the suit
 * @param title from the manifest, or null
 * @param parts in the manifest's order
 */
@Serdeable
public record BundleContents(
        String batch,
        String title,
        List<BundlePart> parts) {
}
