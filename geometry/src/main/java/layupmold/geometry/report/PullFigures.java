package layupmold.geometry.report;

import org.joml.Vector3d;

/**
 * The pull direction.
 *
 * @param direction unit vector in the posted mesh's frame
 * @param searched true if it was found, false if the recipe gave it
 * @param undercutMm2 area of the face that faces away from the pull or is shadowed along it
 * @param undercutShare that area over the face's area, 0 to 1
 * @param runnerUp the best direction well apart from the chosen one, or null when the recipe gave the pull
 * @param runnerUpUndercutMm2 its undercut area, or null
 */
public record PullFigures(
        Vector3d direction,
        boolean searched,
        double undercutMm2,
        double undercutShare,
        Vector3d runnerUp,
        Double runnerUpUndercutMm2) {
}
