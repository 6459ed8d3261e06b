package layupmold.geometry.inspect;

import java.util.List;
import layupmold.geometry.congruence.Isometry;

/**
 * How the cured part leaves the mold along z, as {@link Demold} defines it.
 *
 * @param verdict in one word
 * @param drafts tool, caps and wall, in this order
 * @param facingAwayMm2 area that faces away from the pull
 * @param shadowedMm2 area that does not, but has other parts of the mold above it along the pull
 * @param lockedRegions deepest first; pieces shallower than 0.01 mm or smaller than 0.1 mm² are left out
 * @param flexLimitMm depth that still springs free, from the recipe
 * @param otherPull the best other direction, or null if nothing is undercut
 * @param split what would free the part, or null if it is not locked
 */
public record DemoldFigures(
        Verdict verdict,
        List<DraftFigures> drafts,
        double facingAwayMm2,
        double shadowedMm2,
        List<LockedRegion> lockedRegions,
        double flexLimitMm,
        OtherPull otherPull,
        SplitAdvice split) {

    public DemoldFigures {
        drafts = List.copyOf(drafts);
        lockedRegions = List.copyOf(lockedRegions);
    }

    /** All undercut area. */
    public double undercutMm2() {
        return facingAwayMm2 + shadowedMm2;
    }

    /** The draft figures of the region with the least draft. */
    public DraftFigures leastDraft() {
        return drafts.stream().min((a, b) -> Double.compare(a.leastDeg(), b.leastDeg())).orElseThrow();
    }

    /** The same with places and directions in another frame. */
    public DemoldFigures in(Isometry frame) {
        return new DemoldFigures(verdict, drafts.stream().map(draft -> draft.in(frame)).toList(), facingAwayMm2,
                shadowedMm2, lockedRegions.stream().map(region -> region.in(frame)).toList(), flexLimitMm,
                otherPull == null ? null : otherPull.in(frame), split == null ? null : split.in(frame));
    }
}
