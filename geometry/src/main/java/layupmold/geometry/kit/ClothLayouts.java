package layupmold.geometry.kit;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.nest.ClothPiece;
import layupmold.geometry.nest.RollLayout;
import layupmold.geometry.nest.RollNesting;
import layupmold.geometry.recipe.Ply;
import layupmold.geometry.recipe.Weave;

/** Cut layouts of one part or a whole suit: plies of the same cloth share a roll. */
public final class ClothLayouts {

    /** What makes two plies one cloth. */
    public record Cloth(Weave weave, double arealWeightGsm, double fibreDensity, String fibre, String tow) {

        public static Cloth of(Ply ply) {
            return new Cloth(ply.weave(), ply.arealWeightGsm(), ply.fibreDensity(), ply.fibre(), ply.tow());
        }
    }

    /**
     * @param cloth the roll's cloth
     * @param layout where each piece lies
     * @param findings pieces that do not fit
     */
    public record ClothLayout(Cloth cloth, RollLayout layout, List<Finding> findings) {
    }

    /** A piece of one cloth. */
    public record Piece(Cloth cloth, ClothPiece outline) {
    }

    private ClothLayouts() {
    }

    /** One layout a cloth, in the order the cloths first appear. */
    public static List<ClothLayout> of(List<PlyTemplate> templates, KitSpec spec) {
        return nest(templates.stream().map(PlyTemplate::piece).toList(), spec.rollWidthMm(), spec.clearanceMm());
    }

    /**
     * One layout a cloth, in the order the cloths first appear.
     *
     * @param rollWidthMm width of every roll
     * @param clearanceMm least distance between pieces
     */
    public static List<ClothLayout> nest(List<Piece> pieces, double rollWidthMm, double clearanceMm) {
        Map<Cloth, List<ClothPiece>> rolls = new LinkedHashMap<>();
        for (Piece piece : pieces) {
            rolls.computeIfAbsent(piece.cloth(), c -> new ArrayList<>()).add(piece.outline());
        }
        List<ClothLayout> layouts = new ArrayList<>();
        rolls.forEach((cloth, outlines) -> {
            RollLayout layout = RollNesting.nest(outlines, rollWidthMm, clearanceMm);
            layouts.add(new ClothLayout(cloth, layout, layout.unplaced().stream()
                    .map(piece -> tooWide(piece, layout)).toList()));
        });
        return layouts;
    }

    private static Finding tooWide(ClothPiece piece, RollLayout layout) {
        double width = piece.outline().getEnvelopeInternal().getHeight() + 2 * layout.clearanceMm();
        return Finding.warning("kit", "piece-wider-than-roll",
                "The ply " + piece.name() + " is wider across its warp than the roll.")
                .measured(width, layout.rollWidthMm(), "mm")
                .advising("Take a wider roll, turn the ply's direction, or cut it in two along a warp thread.");
    }
}
