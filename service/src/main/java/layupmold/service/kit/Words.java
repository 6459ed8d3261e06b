package layupmold.service.kit;

import layupmold.geometry.recipe.Weave;

/** Trade words for what the recipe names. */
final class Words {

    private Words() {
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
