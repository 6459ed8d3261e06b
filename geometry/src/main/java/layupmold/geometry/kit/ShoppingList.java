package layupmold.geometry.kit;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/**
 * What to buy for one part or a suit; quantities are what will be used, not what tins come in.
 *
 * @param parts names, in order
 * @param cloths length of roll a cloth
 * @param resins a line a resin and purpose
 * @param cups mixing cups, two for every mix: the second is scraped into from the first
 * @param brushes one for every ply and coat
 * @param glovePairs two for every ply and coat
 * @param laminateMm2 area of all trimmed parts
 */
public record ShoppingList(
        List<String> parts, List<ClothLayouts.ClothLayout> cloths, List<Resin> resins, int cups, int brushes,
        int glovePairs, double laminateMm2) {

    public ShoppingList {
        parts = List.copyOf(parts);
        cloths = List.copyOf(cloths);
        resins = List.copyOf(resins);
    }

    /**
     * @param name of the resin
     * @param finish whether it is for finish coats, else for laminates
     * @param resinG g, losses included
     * @param hardenerG g
     * @param shelfMonths months that closed cans keep, the least where recipes differ; NaN for finish coats
     */
    public record Resin(String name, boolean finish, double resinG, double hardenerG, double shelfMonths) {

        private Resin plus(Resin more) {
            return new Resin(name, finish, resinG + more.resinG, hardenerG + more.hardenerG,
                    Math.min(shelfMonths, more.shelfMonths));
        }
    }

    private record Use(String name, boolean finish) {
    }

    /** The sum over kits, their plies nested together. */
    public static ShoppingList of(List<LayupKit> kits, KitSpec spec) {
        return of(kits.stream().map(kit -> LayupNeeds.of(kit, spec)).toList(), spec.rollWidthMm(), spec.clearanceMm());
    }

    /**
     * The sum, all plies nested together. Counts of cups, brushes and gloves: common practice, no source.
     *
     * @param rollWidthMm width of every roll
     * @param clearanceMm least distance between pieces
     */
    public static ShoppingList of(List<LayupNeeds> needs, double rollWidthMm, double clearanceMm) {
        List<ClothLayouts.ClothLayout> cloths = ClothLayouts.nest(
                needs.stream().flatMap(n -> n.pieces().stream()).toList(), rollWidthMm, clearanceMm);
        Map<Use, Resin> resins = new LinkedHashMap<>();
        for (LayupNeeds n : needs) {
            add(resins, new Resin(n.laminateResin(), false, n.resinG(), n.hardenerG(), n.shelfMonths()));
        }
        for (LayupNeeds n : needs) {
            add(resins, new Resin(n.finishResin(), true, n.finishResinG(), n.finishHardenerG(), Double.NaN));
        }
        int sessions = needs.stream().mapToInt(LayupNeeds::sessions).sum();
        return new ShoppingList(needs.stream().map(LayupNeeds::part).toList(), cloths, List.copyOf(resins.values()),
                2 * needs.stream().mapToInt(LayupNeeds::mixes).sum(), sessions, 2 * sessions,
                needs.stream().mapToDouble(LayupNeeds::finishMm2).sum());
    }

    private static void add(Map<Use, Resin> resins, Resin one) {
        if (one.resinG() > 0) {
            resins.merge(new Use(one.name(), one.finish()), one, Resin::plus);
        }
    }
}
