package layupmold.api.kit;

import io.micronaut.serde.annotation.Serdeable;

/**
 * One coat and the cups it is mixed in.
 *
 * @param stage what it is for
 * @param number ply or finish coat, from 1
 * @param mixedG resin and hardener together
 * @param cups equal cups
 * @param cupResinG resin in each
 * @param cupHardenerG hardener in each
 * @param cupResinMl resin in each, ml
 * @param cupHardenerMl hardener in each, ml
 */
@Serdeable
public record CoatFigures(
        CoatStage stage,
        Integer number,
        Double mixedG,
        Integer cups,
        Double cupResinG,
        Double cupHardenerG,
        Double cupResinMl,
        Double cupHardenerMl) {
}
