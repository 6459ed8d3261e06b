package layupmold.geometry.plug;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.offset.OffsetSurface;
import layupmold.geometry.opening.CollarSpec;
import layupmold.geometry.recipe.OpeningSpec;
import layupmold.geometry.recipe.Tool;

/**
 * Stage "plug": puts an island in place of every patch of region {@link MoldRegion#PLUG}.
 *
 * <p>The island's foot is the patch's edge on the offset surface, so the opening keeps its size; the laminate ends at the
 * island's wall and needs no cutting there. Cavity and plug alike, the laminate lies above the surface and leaves
 * upwards, so islands rise with z. Where none fits or one would cut the tool surface, the patch stays as a cap, and a
 * warning says so.
 */
public final class CorePlugs {

    /** Offsets of collar and patch meet as far below the collar's end, if square; contouring takes up to two more. */
    private static final double COLLAR_BY_OFFSET = 4;
    private static final double LEAST_COLLAR_MM = 0.5;

    private CorePlugs() {
    }

    /**
     * Collars around openings that get a plug, so that its foot is the offset of the opening's edge.
     *
     * @param tool cavity or plug
     * @param offsetMm signed offset along the part's outward normal that will follow
     * @param ballMm radius of the ball that will fill corners, 0 for none
     * @param flexDepthMm undercut that springs free
     */
    public static CollarSpec collars(
            boolean[] plugged, Tool tool, double offsetMm, double ballMm, double flexDepthMm) {
        double widthMm = Math.max(LEAST_COLLAR_MM, COLLAR_BY_OFFSET * Math.max(Math.abs(offsetMm), ballMm));
        return new CollarSpec(plugged, widthMm, offsetMm, tool == Tool.FEMALE ? 1 : -1, flexDepthMm);
    }

    /**
     * A few times O(n log n).
     *
     * @param tool offset surface in the mold frame, facing out of the mold
     * @param spec height and draft
     * @param laminateMm thickness of what is laid around the plugs
     * @param lattice coordinates that the result may have
     * @return the surface with plugs; its findings are this stage's
     */
    public static OffsetSurface raise(
            OffsetSurface tool, OpeningSpec spec, double laminateMm, CoordinateLattice lattice) {
        EdgeTopology topology = EdgeTopology.of(tool.mesh());
        List<PlugFoot> openings = PlugFoot.find(tool.regions(), topology);
        List<CorePlug> plugs = new ArrayList<>();
        PlugFindings findings = new PlugFindings(tool.mesh(), topology, spec);
        for (PlugFoot opening : openings) {
            try {
                CorePlug plug = CorePlug.raise(tool.mesh(), topology, opening, laminateMm + spec.plugHeightMm(),
                        spec.plugDraftDeg(), lattice);
                findings.standing(opening, plug);
                plugs.add(plug);
            } catch (Unfit unfit) {
                findings.leftCapped(opening, unfit);
            }
        }
        PluggedSheet sheet = PluggedSheet.of(tool, plugs);
        return new OffsetSurface(sheet.mesh(), sheet.regions(), sheet.outline(), tool.method(), tool.resolutionMm(),
                tool.worst(), findings.all(plugs.size()));
    }
}
