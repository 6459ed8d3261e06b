package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;

/**
 * What the finished mold is held against when it is measured, and how it will be printed and cured.
 *
 * @param toolToleranceMm a mold whose tool surface is farther from its offset than this anywhere is refused
 * @param leastDraftDeg draft below which a surface is reported as tight
 * @param leastWallMm wall below which the print is reported as thin; absent to take it from material and nozzle
 * @param flexDepthMm how far mold or laminate may spring to let an undercut pass
 * @param clothRadiusMm least concave radius the cloth follows; absent to take it from weave and thickness
 * @param overhangDeg angle from the vertical beyond which a downward surface needs support
 * @param layerMm print layer height
 * @param wallLines lines printed along every outline
 * @param infillShare share of the inside that is filled, 0 to 1
 * @param speedMmPerS mean print speed along the line
 * @param cureTemperatureC warmest the mold gets while the laminate cures
 */
@Serdeable
public record InspectRecipe(
        Double toolToleranceMm,
        Double leastDraftDeg,
        Double leastWallMm,
        Double flexDepthMm,
        Double clothRadiusMm,
        Double overhangDeg,
        Double layerMm,
        Integer wallLines,
        Double infillShare,
        Double speedMmPerS,
        Double cureTemperatureC) {
}
