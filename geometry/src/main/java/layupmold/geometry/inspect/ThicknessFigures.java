package layupmold.geometry.inspect;

import java.util.List;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Place;

/**
 * Wall thickness of the solid, as {@link WallThickness} defines it.
 *
 * @param limitMm what it is held against
 * @param leastMm least inscribed-ball thickness, but for thin places too small to print; {@code capMm} if no wall is
 *     thinner
 * @param leastAt where, on the surface, mold frame unless moved, mm; null if no wall is thinner than the cap
 * @param leastRayMm least ray thickness; {@code capMm} if no wall is thinner
 * @param leastRayAt where; null likewise
 * @param p1Mm thickness that 1 % of the surface does not exceed
 * @param p5Mm thickness that 5 % of the surface does not exceed
 * @param thinShare share of the surface under the limit, 0 to 1
 * @param histogram surface area by thickness from 0 to {@code capMm}; thicker walls are in the last bin
 * @param thinRegions thinnest first, at most 100; those of less than 0.1 mm² are left out
 * @param capMm thickness beyond which walls are not told apart
 */
public record ThicknessFigures(
        double limitMm,
        double leastMm,
        Place leastAt,
        double leastRayMm,
        Place leastRayAt,
        double p1Mm,
        double p5Mm,
        double thinShare,
        Histogram histogram,
        List<ThinRegion> thinRegions,
        double capMm) {

    public ThicknessFigures {
        thinRegions = List.copyOf(thinRegions);
    }

    /** The same with places in another frame. */
    public ThicknessFigures in(Isometry frame) {
        return new ThicknessFigures(limitMm, leastMm, frame.apply(leastAt), leastRayMm, frame.apply(leastRayAt), p1Mm,
                p5Mm, thinShare, histogram, thinRegions.stream().map(region -> region.in(frame)).toList(), capMm);
    }
}
