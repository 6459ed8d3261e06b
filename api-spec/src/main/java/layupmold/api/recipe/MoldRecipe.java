package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * Everything about a mold besides the part's mesh. An absent field takes its documented default.
 *
 * @param title name for reports and file metadata
 * @param unit unit of the mesh file's numbers; a file format's own unit wins
 * @param pull direction along which the cured part leaves the mold, three numbers; absent to search
 * @param keep which wall is the face
 * @param tool cavity or plug
 * @param hold which face keeps the modelled size
 * @param layup plies and resin
 * @param releaseMm thickness of the release layer, mm
 * @param openings what becomes of the part's openings
 * @param flange the surface beyond the perimeter
 * @param fillet what becomes of corners too tight for the cloth
 * @param body the printed solid
 * @param printer the machine that prints it
 * @param inspect what the finished mold is held against
 * @param kit cloth, paper and resin of the layup kit
 */
@Serdeable
public record MoldRecipe(
        String title,
        MeshUnit unit,
        List<Double> pull,
        KeepRecipe keep,
        ToolKind tool,
        HeldFace hold,
        LayupRecipe layup,
        Double releaseMm,
        OpeningsRecipe openings,
        FlangeRecipe flange,
        FilletRecipe fillet,
        BodyRecipe body,
        PrinterRecipe printer,
        InspectRecipe inspect,
        KitRecipe kit) {

    /** A recipe that leaves everything to the defaults. */
    public static MoldRecipe defaults() {
        return new MoldRecipe(null, null, null, null, null, null, null, null, null, null, null, null, null, null, null);
    }
}
