package layupmold.geometry.pull;

import java.util.List;
import layupmold.geometry.finding.Finding;
import org.joml.Vector3d;

/**
 * The pull direction.
 *
 * @param direction unit vector along which the cured part leaves a female mold
 * @param searched true if it was found, false if the recipe gave it
 * @param hiddenShare share of the part's surface, 0 to 1, that is seen neither along the pull nor against it; NaN if
 *     given
 * @param runnerUp best direction at least 25° apart from the chosen axis, or null if given
 * @param runnerUpHiddenShare the same share for the runner-up
 * @param findings what was doubtful
 */
public record PullResult(
        Vector3d direction,
        boolean searched,
        double hiddenShare,
        Vector3d runnerUp,
        double runnerUpHiddenShare,
        List<Finding> findings) {
}
