package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * How the part comes out of the mold.
 *
 * @param verdict in one word
 * @param drafts tool, caps and wall
 * @param facingAwayMm2 area that faces away from the pull
 * @param shadowedMm2 area that other parts of the mold lie above
 * @param lockedRegions deepest first; places of less than 0.1 mm² are left out
 * @param flexLimitMm depth that still springs free, from the recipe
 * @param otherPull the best other direction, or null if nothing is undercut
 * @param split what would free the part, or null if it is not locked
 */
@Serdeable
public record DemoldReport(
        DemoldVerdict verdict,
        List<DraftReport> drafts,
        Double facingAwayMm2,
        Double shadowedMm2,
        List<LockedPlace> lockedRegions,
        Double flexLimitMm,
        OtherPullReport otherPull,
        SplitReport split) {
}
