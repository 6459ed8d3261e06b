package layupmold.geometry.fillet;

import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.flange.FlangedSurface;

/**
 * Capped face and flange with their tight corners filled.
 *
 * @param surface the same sheet; triangles where nothing was filled keep their corners
 * @param figures what was filled; null if nobody asked
 * @param findings what to tell the maker, places in the frame of the sheet
 */
public record FilletedSurface(FlangedSurface surface, FilletFigures figures, List<Finding> findings) {

    /** Nobody asked for fillings. */
    public static FilletedSurface asItWas(FlangedSurface surface) {
        return new FilletedSurface(surface, null, List.of());
    }
}
