package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;
import layupmold.api.recipe.MoldRecipe;

/**
 * The report handed out with a mold. The same part and recipe give the same bytes.
 *
 * @param recipe the recipe with every default filled in
 * @param recipeHash hash of that recipe, hexadecimal
 * @param partSha256 hash of the posted bytes, hexadecimal
 * @param partToMold rigid transform from the posted mesh's frame (in mm) to the mold's: 16 numbers, row by row
 * @param part what was posted
 * @param pull the pull direction
 * @param face the kept surface
 * @param openings how its openings are made
 * @param laminate the cured laminate
 * @param offset distance between face and tool surface
 * @param flange the surface beyond the perimeter
 * @param body the printed solid
 * @param checks the checks it passed
 * @param wall thickness of the solid
 * @param demold how the part comes out
 * @param fabric how the cloth lies
 * @param fillet what was filled so that it lies down; absent where that was not asked for
 * @param print how it prints
 * @param findings everything worth knowing, in pipeline order
 */
@Serdeable
public record MoldReportDocument(
        MoldRecipe recipe,
        String recipeHash,
        String partSha256,
        List<Double> partToMold,
        PartReport part,
        PullReport pull,
        FaceReport face,
        OpeningsReport openings,
        LaminateReport laminate,
        OffsetReport offset,
        FlangeReport flange,
        BodyReport body,
        CheckReport checks,
        WallReport wall,
        DemoldReport demold,
        FabricReport fabric,
        FilletReport fillet,
        PrintReport print,
        List<ReportFinding> findings) {
}
