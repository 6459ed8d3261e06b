package layupmold.service.kit;

import java.util.Locale;
import layupmold.geometry.kit.ClothLayouts;
import layupmold.geometry.recipe.Weave;

/** Trade words for what the recipe names. */
final class Words {

    private Words() {
    }

    /** The cloth as a shop would say it. */
    static String cloth(ClothLayouts.Cloth cloth) {
        return String.format(Locale.ROOT, "%.0f g/m² %s%s %s", cloth.arealWeightGsm(),
                cloth.tow().isEmpty() ? "" : cloth.tow() + " ", cloth.fibre(), weave(cloth.weave()));
    }

    static String weave(Weave weave) {
        return switch (weave) {
            case PLAIN -> "plain weave";
            case TWILL_2X2 -> "2/2 twill";
            case SATIN -> "satin";
            case UNIDIRECTIONAL -> "unidirectional";
            case CHOPPED_MAT -> "chopped mat";
        };
    }
}
