package layupmold.service.recipe;

import java.util.List;
import java.util.Locale;
import layupmold.api.recipe.KitRecipe;
import layupmold.api.recipe.MixBasis;
import layupmold.api.recipe.PaperSize;
import layupmold.api.recipe.ResinKind;
import layupmold.api.recipe.ResinRecipe;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.kit.ResinSpec;
import layupmold.geometry.laminate.MaterialTables;
import org.joml.Vector3d;

/** The recipe's kit section between contract and geometry; absent fields take the open tables' figures. */
final class KitMapping {

    private KitMapping() {
    }

    /**
     * @param asked may be null
     * @throws IllegalArgumentException if the geometry refuses a value that the contract let pass
     */
    static KitSpec toGeometry(KitRecipe asked) {
        KitSpec usual = KitSpec.defaults();
        if (asked == null) {
            return usual;
        }
        return new KitSpec(
                RecipeMapping.or(asked.marginMm(), usual.marginMm()),
                RecipeMapping.or(asked.rollWidthMm(), usual.rollWidthMm()),
                RecipeMapping.or(asked.clearanceMm(), usual.clearanceMm()),
                RecipeMapping.named(asked.paper(), KitSpec.Paper.class, usual.paper()),
                resin(asked.resin(), usual.resin()),
                resin(asked.coatResin(), usual.coatResin()),
                RecipeMapping.or(asked.lossShare(), usual.lossShare()),
                RecipeMapping.or(asked.workshopC(), usual.workshopC()),
                RecipeMapping.or(asked.spreadGramsPerMin(), usual.spreadGramsPerMin()),
                asked.finishCoats() == null ? usual.finishCoats() : asked.finishCoats(),
                asked.lockingDeg(),
                asked.start() == null ? null
                        : new Vector3d(asked.start().get(0), asked.start().get(1), asked.start().get(2)));
    }

    private static ResinSpec resin(ResinRecipe asked, ResinSpec usual) {
        if (asked == null) {
            return usual;
        }
        ResinSpec row = asked.like() == null ? usual : ResinSpec.of(MaterialTables.resin(rowName(asked.like())));
        double resinDensity = RecipeMapping.or(asked.resinDensity(), row.resinDensity());
        double hardenerDensity = RecipeMapping.or(asked.hardenerDensity(), row.hardenerDensity());
        ResinSpec.MixBy mixBy = RecipeMapping.named(asked.mixBy(), ResinSpec.MixBy.class, row.mixBy());
        // The table's ratio counts mass; by volume the same mix is another number.
        double ratio = mixBy == row.mixBy() ? row.hardenerPer100()
                : row.hardenerPer100() * resinDensity / hardenerDensity;
        return new ResinSpec(
                asked.name() == null ? row.name() : asked.name(),
                mixBy,
                RecipeMapping.or(asked.hardenerPer100(), ratio),
                resinDensity,
                hardenerDensity,
                RecipeMapping.or(asked.curedDensity(), row.curedDensity()),
                RecipeMapping.or(asked.potLifeMin(), row.potLifeMin()),
                RecipeMapping.or(asked.largestCupG(), row.largestCupG()),
                RecipeMapping.or(asked.tackHours(), row.tackHours()),
                RecipeMapping.or(asked.demoldHours(), row.demoldHours()),
                RecipeMapping.or(asked.fullCureHours(), row.fullCureHours()),
                RecipeMapping.or(asked.shelfMonths(), row.shelfMonths()));
    }

    static String rowName(ResinKind kind) {
        return kind.name().toLowerCase(Locale.ROOT).replace('_', ' ');
    }

    static KitRecipe toContract(KitSpec kit) {
        return new KitRecipe(kit.marginMm(), kit.rollWidthMm(), kit.clearanceMm(),
                PaperSize.valueOf(kit.paper().name()), toContract(kit.resin()), toContract(kit.coatResin()),
                kit.lossShare(), kit.workshopC(), kit.spreadGramsPerMin(), kit.finishCoats(), kit.lockingDeg(),
                kit.start() == null ? null : List.of(kit.start().x, kit.start().y, kit.start().z));
    }

    private static ResinRecipe toContract(ResinSpec resin) {
        return new ResinRecipe(null, resin.name(), MixBasis.valueOf(resin.mixBy().name()), resin.hardenerPer100(),
                resin.resinDensity(), resin.hardenerDensity(), resin.curedDensity(), resin.potLifeMin(),
                resin.largestCupG(), resin.tackHours(), resin.demoldHours(), resin.fullCureHours(),
                resin.shelfMonths());
    }
}
