package layupmold.geometry.kit;

import java.util.List;

/**
 * What laying up one part takes, for adding up.
 *
 * @param part its name
 * @param pieces a piece of cloth a ply
 * @param laminateResin name of the laminating resin
 * @param resinG of it, g
 * @param hardenerG its hardener, g
 * @param shelfMonths months that its closed cans keep
 * @param finishResin name of the finish coat's resin
 * @param finishResinG of it, g
 * @param finishHardenerG its hardener, g
 * @param mixes cups to mix
 * @param sessions plies and finish coats
 * @param finishMm2 area of the trimmed part
 */
public record LayupNeeds(
        String part, List<ClothLayouts.Piece> pieces, String laminateResin, double resinG, double hardenerG,
        double shelfMonths, String finishResin, double finishResinG, double finishHardenerG, int mixes, int sessions,
        double finishMm2) {

    public LayupNeeds {
        pieces = List.copyOf(pieces);
    }

    public static LayupNeeds of(LayupKit kit, KitSpec spec) {
        ResinPlan plan = kit.resin();
        int finishCoats = (int) plan.coats().stream().filter(c -> c.stage() == ResinPlan.Stage.FINISH).count();
        return new LayupNeeds(kit.part(), kit.templates().stream().map(PlyTemplate::piece).toList(),
                spec.resin().name(), plan.resinG(), plan.hardenerG(), spec.resin().shelfMonths(), spec.coatResin().name(),
                plan.finishResinG(), plan.finishHardenerG(), plan.coats().stream().mapToInt(ResinPlan.Coat::cups).sum(),
                kit.templates().size() + finishCoats, plan.finishMm2());
    }
}
