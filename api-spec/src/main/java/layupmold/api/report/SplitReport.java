package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * A plane along which to split the mold.
 *
 * @param normal unit normal in the posted mesh's frame
 * @param through a point of the plane
 * @param freedShare share of the undercut that this frees, 0 to 1
 * @param words what to do, for people
 */
@Serdeable
public record SplitReport(
        List<Double> normal,
        PlaceFigures through,
        Double freedShare,
        String words) {
}
