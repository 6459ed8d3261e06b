package layupmold.api.kit;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;
import layupmold.api.report.PlaceFigures;
import layupmold.api.report.ReportFinding;

/**
 * A small mold cut from the part's own hardest place, to try print settings, wax, cloth and resin before the real one.
 *
 * @param part name of the part
 * @param place its middle, in the posted mesh's frame
 * @param sizeMm side of the square cut from the face, in the mold's plan
 * @param steepestDeg steepest wall there, from the level
 * @param gapMm largest gap under the cloth there
 * @param shearDeg most shear there
 * @param offsetMm distance from face to tool surface, as the part's own
 * @param moldSizeMm extents of the printed solid
 * @param printMinutes time to print, roughly
 * @param printMm3 printed volume, roughly
 * @param findings of the coupon's mold; places in the part's mold
 * @param files the mold, relative to this document
 */
@Serdeable
public record CouponDocument(
        String part,
        PlaceFigures place,
        Double sizeMm,
        Double steepestDeg,
        Double gapMm,
        Double shearDeg,
        Double offsetMm,
        List<Double> moldSizeMm,
        Double printMinutes,
        Double printMm3,
        List<ReportFinding> findings,
        List<KitFile> files) {
}
