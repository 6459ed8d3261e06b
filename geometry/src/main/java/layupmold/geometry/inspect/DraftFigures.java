package layupmold.geometry.inspect;

import layupmold.geometry.MoldRegion;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Place;

/**
 * Draft of one region: the angle by which its surface leans away from the pull, 90° for level, 0° for upright,
 * negative for facing away.
 *
 * @param region which
 * @param areaMm2 its area
 * @param leastDeg least draft; 90 if the region is empty
 * @param leastAt where, mold frame unless moved, mm; null if the region is empty
 * @param tightMm2 area below the recipe's least draft
 * @param histogram area by draft, 2.5° a bin
 */
public record DraftFigures(
        MoldRegion region, double areaMm2, double leastDeg, Place leastAt, double tightMm2, Histogram histogram) {

    /** The same with places in another frame. */
    DraftFigures in(Isometry frame) {
        return new DraftFigures(region, areaMm2, leastDeg, frame.apply(leastAt), tightMm2, histogram);
    }
}
