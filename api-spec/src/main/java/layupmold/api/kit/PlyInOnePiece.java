package layupmold.api.kit;

import io.micronaut.serde.annotation.Serdeable;

/**
 * How a ply would lie without its darts.
 *
 * @param maxShearDeg largest shear
 * @param lockedMm2 area of the tool where the yarns jam
 * @param uncoveredMm2 area of the tool that the cloth cannot reach
 */
@Serdeable
public record PlyInOnePiece(
        Double maxShearDeg,
        Double lockedMm2,
        Double uncoveredMm2) {
}
