package layupmold.api.kit;

import io.micronaut.serde.annotation.Serdeable;

/**
 * A ply cut in two along a thread.
 *
 * @param alongWarp whether the cut follows a warp thread or a weft thread
 * @param atMm distance of that thread from the start mark
 * @param lockedShare share of the area that still locks or stays bare when both halves are laid by themselves
 * @param maxShearDeg largest shear of both
 */
@Serdeable
public record SplitFigures(
        Boolean alongWarp,
        Double atMm,
        Double lockedShare,
        Double maxShearDeg) {
}
