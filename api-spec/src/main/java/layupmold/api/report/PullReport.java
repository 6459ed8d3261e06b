package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * The pull direction.
 *
 * @param direction unit vector in the posted mesh's frame
 * @param searched true if it was found, false if the recipe gave it
 * @param undercutMm2 area of the face that faces away from the pull or is shadowed along it
 * @param undercutShare that area over the face's area, 0 to 1
 * @param runnerUp the best direction well apart from the chosen one, or null
 * @param runnerUpUndercutMm2 its undercut area, or null
 */
@Serdeable
public record PullReport(
        List<Double> direction,
        Boolean searched,
        Double undercutMm2,
        Double undercutShare,
        List<Double> runnerUp,
        Double runnerUpUndercutMm2) {
}
