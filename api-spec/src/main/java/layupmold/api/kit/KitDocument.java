package layupmold.api.kit;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;
import layupmold.api.report.ReportFinding;

/**
 * What the bench needs besides the mold. The same part and recipe give the same bytes.
 *
 * @param part name of the part
 * @param laminateMm cured thickness
 * @param partMm2 area of the trimmed part
 * @param arealWeightGsm mass of a square metre of laminate without finish coat
 * @param partG mass of the trimmed part without finish coat
 * @param finishCoatG mass of the finish coat on it
 * @param plies first ply at the tool
 * @param cloths a cut layout a cloth
 * @param resin what to mix
 * @param findings of draping, nesting and mixing
 * @param files everything to print, relative to this document
 */
@Serdeable
public record KitDocument(
        String part,
        Double laminateMm,
        Double partMm2,
        Double arealWeightGsm,
        Double partG,
        Double finishCoatG,
        List<PlyFigures> plies,
        List<ClothFigures> cloths,
        ResinFigures resin,
        List<ReportFinding> findings,
        List<KitFile> files) {
}
