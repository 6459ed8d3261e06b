package layupmold.geometry.face;

import java.util.Optional;
import java.util.function.Supplier;
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
     * @param endsInWall by triangle of the part, whether its piece ends in the midst of walls: such a piece is no face
     *     but the side of a rib or boss that reaches past the rim. Asked for only if a large piece has to go.
     * @return a warning if a large piece had to go
     */
    static Optional<Finding> clean(EdgeTopology topology, double[] areas, SurfaceSplit split, WallLabels labels,
            Supplier<boolean[]> endsInWall) {
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
            EdgeTopology topology, double[] areas, SurfaceSplit split, Supplier<boolean[]> endsInWall) {
        boolean[] kept = split.kept();
        LabelRegions regions = LabelRegions.of(topology, kept);
        double[] area = regions.areas(kept, areas);
        int best = LabelRegions.largest(area);
        double notable = NOTABLE * area[best];
        for (int t = 0; t < kept.length; t++) {
            kept[t] &= regions.ofTriangle()[t] == best;
        }
        area[best] = 0;
        if (area[LabelRegions.largest(area)] <= notable) {
            return Optional.empty();
        }
        boolean[] isNoFace = endsInWall.get();
        for (int t = 0; t < kept.length; t++) {
            if (isNoFace[split.source()[t]]) {
                area[regions.ofTriangle()[t]] = 0;
            }
        }
        int second = LabelRegions.largest(area);
        return area[second] <= notable ? Optional.empty()
                : Optional.of(FaceFindings.pieceDropped(split, regions.first(second), area[second]));
    }
}
