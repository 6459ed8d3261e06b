package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * The printed solid.
 *
 * @param kind block or shell
 * @param triangles triangles of the solid
 * @param sizeMm extent in the mold frame
 * @param volumeMm3 solid volume
 * @param leastWallMm least wall thickness, measured
 * @param leastWallPlace where
 */
@Serdeable
public record BodyReport(
        String kind,
        Integer triangles,
        List<Double> sizeMm,
        Double volumeMm3,
        Double leastWallMm,
        PlaceFigures leastWallPlace) {
}
