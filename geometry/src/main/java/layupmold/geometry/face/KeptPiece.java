package layupmold.geometry.face;

import java.util.Optional;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.EdgeTopology;

/** Leaves one kept piece without specks or pin holes. */
final class KeptPiece {

    /** Another piece this large against the main one is worth a word. */
    private static final double NOTABLE = 0.01;

    private KeptPiece() {
    }

    /**
     * Changes the labels of {@code split}: other pieces that hold no evidence of another wall are kept after all, then
     * only the largest kept piece stays.
     *
     * @param endsInWall by triangle of the part, whether its piece ends in the midst of walls: such a piece is no face but
     *     the side of a rib or boss that reaches past the rim
     * @return a warning if a large piece had to go
     */
    static Optional<Finding> clean(EdgeTopology topology, double[] areas, SurfaceSplit split, WallLabels labels,
            boolean[] endsInWall) {
        boolean[] kept = split.kept();
        LabelRegions regions = LabelRegions.of(topology, kept);
        double[] area = new double[regions.count()];
        double[] sure = new double[regions.count()];
        for (int t = 0; t < kept.length; t++) {
            int r = regions.ofTriangle()[t];
            area[r] += areas[t];
            int source = split.source()[t];
            if (!labels.kept()[source] && labels.evidence()[source] < -WallLabels.SURE) {
                sure[r] += areas[t];
            }
        }
        for (int t = 0; t < kept.length; t++) {
            int r = regions.ofTriangle()[t];
            if (!kept[t] && sure[r] < 0.05 * area[r]) {
                kept[t] = true;
            }
        }
        return keepLargest(topology, areas, split, endsInWall);
    }

    private static Optional<Finding> keepLargest(
            EdgeTopology topology, double[] areas, SurfaceSplit split, boolean[] endsInWall) {
        boolean[] kept = split.kept();
        LabelRegions regions = LabelRegions.of(topology, kept);
        double[] area = regions.areas(kept, areas);
        boolean[] isNoFace = new boolean[regions.count()];
        for (int t = 0; t < kept.length; t++) {
            isNoFace[regions.ofTriangle()[t]] |= endsInWall[split.source()[t]];
        }
        int best = LabelRegions.largest(area);
        int second = -1;
        for (int t = 0; t < kept.length; t++) {
            int r = regions.ofTriangle()[t];
            if (kept[t] && r != best) {
                kept[t] = false;
                if (area[r] > NOTABLE * area[best] && !isNoFace[r]
                        && (second < 0 || area[r] > area[regions.ofTriangle()[second]])) {
                    second = t;
                }
            }
        }
        return second < 0 ? Optional.empty()
                : Optional.of(FaceFindings.pieceDropped(split, second, area[regions.ofTriangle()[second]]));
    }
}
