package layupmold.api.recipe;

import io.micronaut.serde.annotation.Serdeable;
import java.util.List;

/**
 * What the layup kit needs to know: cloth, paper, resin. It changes nothing about the mold.
 *
 * @param marginMm cloth beyond the tool's outline on every side
 * @param rollWidthMm width of the cloth's roll
 * @param clearanceMm least distance between pieces on the roll
 * @param paper page that the templates are printed on
 * @param resin laminating resin
 * @param coatResin resin of the finish coat
 * @param lossShare resin mixed beyond need for brush, cups and table, 0 to 1
 * @param workshopC temperature of workshop and resin
 * @param spreadGramsPerMin mixed resin that one pair of hands wets out in a minute
 * @param finishCoats number of coats that make up the finish coat
 * @param lockingDeg shear at which the yarns of every ply jam; absent to take it from each weave
 * @param start where every ply first touches the tool, in the posted mesh's frame, mm; absent to search
 */
@Serdeable
public record KitRecipe(
        Double marginMm,
        Double rollWidthMm,
        Double clearanceMm,
        PaperSize paper,
        ResinRecipe resin,
        ResinRecipe coatResin,
        Double lossShare,
        Double workshopC,
        Double spreadGramsPerMin,
        Integer finishCoats,
        Double lockingDeg,
        List<Double> start) {
}
