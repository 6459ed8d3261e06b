package layupmold.geometry.drape;

import java.util.List;
import layupmold.geometry.finding.Finding;
import org.joml.Vector3d;

/**
 * One ply on the tool.
 *
 * @param spec as asked
 * @param net the net itself
 * @param start where the cloth first touches the tool, in the mold's frame
 * @param uv flat coordinates of each vertex of the sheet, mm, warp then weft from the start point; NaN where no cloth
 *     lies. Read only by convention
 * @param shearDeg unsigned shear at each triangle of the sheet; NaN where no cloth lies. Read only by convention
 * @param gapMm gap under the cloth at each vertex of the sheet; 0 where it lies down. Read only by convention
 * @param figures what was measured
 * @param darts proposed where the cloth shears past its locking angle
 * @param split proposed where darts cannot help, or null
 * @param findings for the report
 */
public record DrapedPly(
        DrapeSpec spec, DrapeNet net, Vector3d start, double[] uv, double[] shearDeg, double[] gapMm,
        DrapeFigures figures, List<Dart> darts, Split split, List<Finding> findings) {

    public DrapedPly {
        darts = List.copyOf(darts);
        findings = List.copyOf(findings);
    }

    /**
     * A wedge to cut out of the flat cloth, edges to be butted or lapped.
     *
     * @param tipU flat position of its tip along the warp, mm
     * @param tipV along the weft
     * @param mouthU flat middle of its open end along the warp, mm; to be extended to the outline
     * @param mouthV along the weft
     * @param widthMm width at the mouth
     */
    public record Dart(double tipU, double tipV, double mouthU, double mouthV, double widthMm) {
    }

    /**
     * A ply cut in two along a thread.
     *
     * @param alongWarp whether the cut follows a warp thread (v = at) or a weft thread (u = at)
     * @param atMm flat position of the cut
     * @param lockedShare share of the two halves' area that still locks when each is laid from its own middle
     */
    public record Split(boolean alongWarp, double atMm, double lockedShare) {
    }
}
