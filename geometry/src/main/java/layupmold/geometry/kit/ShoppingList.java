package layupmold.geometry.kit;

import java.util.List;

/**
 * What to buy for one part or a suit; quantities are what will be used, not what tins come in.
 *
 * @param parts names, in order
 * @param cloths length of roll a cloth
 * @param laminateResinG resin for the laminates, g
 * @param laminateHardenerG its hardener, g
 * @param finishResinG resin for the finish coats, g
 * @param finishHardenerG its hardener, g
 * @param cups mixing cups, two for every mix: the second is scraped into from the first
 * @param brushes one for every ply and coat
 * @param glovePairs two for every ply and coat
 * @param laminateMm2 area of all trimmed parts
 */
public record ShoppingList(
        List<String> parts, List<ClothLayouts.ClothLayout> cloths, double laminateResinG, double laminateHardenerG,
        double finishResinG, double finishHardenerG, int cups, int brushes, int glovePairs, double laminateMm2) {

    public ShoppingList {
        parts = List.copyOf(parts);
        cloths = List.copyOf(cloths);
    }

    /** The sum over kits, their plies nested together. Counts of cups, brushes and gloves: common practice, no source. */
    public static ShoppingList of(List<LayupKit> kits, KitSpec spec) {
        List<ClothLayouts.ClothLayout> cloths = ClothLayouts.of(
                kits.stream().flatMap(k -> k.templates().stream()).toList(), spec);
        List<ResinPlan> plans = kits.stream().map(LayupKit::resin).toList();
        int mixes = plans.stream().flatMap(p -> p.coats().stream()).mapToInt(ResinPlan.Coat::cups).sum();
        int sessions = kits.stream().mapToInt(k -> k.templates().size()).sum()
                + (int) plans.stream().flatMap(p -> p.coats().stream())
                .filter(c -> c.stage() == ResinPlan.Stage.FINISH).count();
        return new ShoppingList(kits.stream().map(LayupKit::part).toList(), cloths,
                plans.stream().mapToDouble(ResinPlan::resinG).sum(),
                plans.stream().mapToDouble(ResinPlan::hardenerG).sum(),
                plans.stream().mapToDouble(ResinPlan::finishResinG).sum(),
                plans.stream().mapToDouble(ResinPlan::finishHardenerG).sum(),
                2 * mixes, sessions, 2 * sessions, plans.stream().mapToDouble(ResinPlan::finishMm2).sum());
    }
}
