package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * The best other pull.
 *
 * @param direction unit vector in the posted mesh's frame
 * @param undercutMm2 undercut tool area along it
 * @param presentMm2 undercut tool area along the present pull, measured alike
 */
@Serdeable
public record OtherPullReport(
        List<Double> direction,
        Double undercutMm2,
        Double presentMm2) {
}
