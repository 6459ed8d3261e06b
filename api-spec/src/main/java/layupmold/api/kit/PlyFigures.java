package layupmold.api.kit;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;
import layupmold.api.recipe.WeaveKind;

/**
 * One ply as it lies on the tool and as it is cut.
 *
 * @param number from 1 at the tool
 * @param weave how the yarns cross
 * @param arealWeightGsm fibre areal weight
 * @param fibreDensity g/cm³
 * @param angleDeg warp direction in the mold's plan
 * @param fibre what it is woven of
 * @param tow filaments a yarn in trade notation, or null
 * @param curedMm cured thickness
 * @param start where the cloth first touches the tool, in the mold's frame
 * @param toolMm2 area of the tool surface
 * @param drapedMm2 area of the cloth as it lies, sheared
 * @param flatMm2 area of the same cloth lying flat
 * @param clothMm2 cloth as cut, margin included
 * @param maxShearDeg largest shear
 * @param p95ShearDeg shear that 95 % of the tool stays under
 * @param lockingDeg shear at which the yarns jam
 * @param lockedMm2 area of the tool beyond it
 * @param uncoveredMm2 area of the tool that one piece of cloth cannot reach
 * @param bridgedMm2 area in corners tighter than the cloth follows
 * @param leastRadiusMm radius that it follows
 * @param deepestGapMm largest gap under the cloth in such a corner
 * @param darts how many wedges to cut out; the figures are those of the cloth with them
 * @param inOnePiece the cloth without darts, or null if it has none
 * @param split where to cut it in two, or null
 */
@Serdeable
public record PlyFigures(
        Integer number,
        WeaveKind weave,
        Double arealWeightGsm,
        Double fibreDensity,
        Double angleDeg,
        String fibre,
        String tow,
        Double curedMm,
        List<Double> start,
        Double toolMm2,
        Double drapedMm2,
        Double flatMm2,
        Double clothMm2,
        Double maxShearDeg,
        Double p95ShearDeg,
        Double lockingDeg,
        Double lockedMm2,
        Double uncoveredMm2,
        Double bridgedMm2,
        Double leastRadiusMm,
        Double deepestGapMm,
        Integer darts,
        PlyInOnePiece inOnePiece,
        SplitFigures split) {
}
