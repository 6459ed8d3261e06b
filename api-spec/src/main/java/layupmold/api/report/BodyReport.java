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
 * @param blockVolumeMm3 volume of the block that would carry the same tool surface
 * @param feet that it stands on; 0 for a block
 * @param notches pry notches cut
 * @param screwHoles screw holes cut
 * @param tipDeg least angle by which the empty mold can lean before it tips over
 * @param leastWallMm least wall thickness, measured
 * @param leastWallPlace where
 */
@Serdeable
public record BodyReport(
        String kind,
        Integer triangles,
        List<Double> sizeMm,
        Double volumeMm3,
        Double blockVolumeMm3,
        Integer feet,
        Integer notches,
        Integer screwHoles,
        Double tipDeg,
        Double leastWallMm,
        PlaceFigures leastWallPlace) {
}
