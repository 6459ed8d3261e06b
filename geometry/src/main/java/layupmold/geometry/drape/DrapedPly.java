package layupmold.geometry.drape;

import java.util.List;
import layupmold.geometry.finding.Finding;
import org.joml.Vector3d;

/**
 * One ply on the tool.
 *
 * @param spec as asked
 * @param sheet what it lies on: the tool's sheet, cut open along the darts if there are any
 * @param net the net itself; with darts, its part before them
 * @param start where the cloth first touches the tool, in the mold's frame
 * @param uv flat coordinates of each vertex of the sheet, mm, warp then weft from the start point; NaN where no cloth
 *     lies. Read only by convention
 * @param shearDeg unsigned shear at each triangle of the sheet; NaN where no cloth lies. Read only by convention
 * @param gapMm gap under the cloth at each vertex of the sheet; 0 where it lies down. Read only by convention
 * @param figures what was measured, of the cloth with its darts
 * @param inOnePiece the same of the cloth without darts, or null if it has none
 * @param darts to cut out, where the cloth would shear past its locking angle and lies better with them
 * @param split proposed where darts do not help enough, or null
 * @param findings for the report
 */
public record DrapedPly(
        DrapeSpec spec, ToolSheet sheet, DrapeNet net, Vector3d start, double[] uv, double[] shearDeg, double[] gapMm,
        DrapeFigures figures, DrapeFigures inOnePiece, List<Dart> darts, Split split, List<Finding> findings) {

    public DrapedPly {
        darts = List.copyOf(darts);
        findings = List.copyOf(findings);
    }

    /**
     * A wedge to cut out of the flat cloth, whose sides meet on the tool. Flat positions in mm, u and v in turn, from the
     * tip to the tool's edge.
     *
     * @param left side that lies to the left on the way out
     * @param right the other side
     */
    public record Dart(double[] left, double[] right) {

        /** Width at the tool's edge; not positive if there is nothing to cut out. */
        public double widthMm() {
            if (left.length < 4 || right.length < 4) {
                return 0;
            }
            double lu = left[left.length - 2];
            double lv = left[left.length - 1];
            double ru = right[right.length - 2];
            double rv = right[right.length - 1];
            double turn = (ru - right[0]) * (lv - left[1]) - (rv - right[1]) * (lu - left[0]);
            return Math.signum(turn) * Math.hypot(lu - ru, lv - rv);
        }
    }

    /**
     * A ply cut in two along a thread.
     *
     * @param alongWarp whether the cut follows a warp thread (v = at) or a weft thread (u = at)
     * @param atMm flat position of the cut
     * @param pieces each as it lies when laid from its own best start
     */
    public record Split(boolean alongWarp, double atMm, List<DrapedPly> pieces) {

        public Split {
            pieces = List.copyOf(pieces);
        }

        public double maxShearDeg() {
            return pieces.stream().mapToDouble(p -> p.figures().maxShearDeg()).max().orElse(0);
        }

        /** Share of both pieces' area that still shears past the locking angle or that no cloth reaches. */
        public double amissShare() {
            double amiss = pieces.stream().mapToDouble(p -> p.figures().lockedMm2() + p.figures().uncoveredMm2()).sum();
            return amiss / pieces.stream().mapToDouble(p -> p.figures().surfaceMm2()).sum();
        }
    }
}
