package layupmold.service.kit;

import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import layupmold.geometry.kit.ClothLayouts;
import layupmold.geometry.kit.ShoppingList;

/**
 * A suit's shopping list as a page.
 *
 * @param parts names of the parts, joined
 * @param items what to buy
 */
record SuitSheet(String parts, List<Item> items) {

    private static final HtmlPage PAGE = new HtmlPage("shopping-list.mustache");

    record Item(String name, String quantity, String note) {
    }

    static SuitSheet of(ShoppingList list) {
        Stream<Item> cloths = list.cloths().stream().map(SuitSheet::cloth);
        Stream<Item> resins = list.resins().stream().flatMap(SuitSheet::resin);
        Stream<Item> rest = Stream.of(
                new Item("mixing cups", String.valueOf(list.cups()), "two a mix"),
                new Item("brushes", String.valueOf(list.brushes()), "one a ply and coat"),
                new Item("nitrile gloves", list.glovePairs() + " pairs", "two a ply and coat"),
                new Item("release wax and film", text("for %.2f m² of tool and its flange", list.laminateMm2() / 1e6),
                        "several thin coats"),
                new Item("wet sanding paper", "P400, P800, P1000, P2000", "FEPA grits"),
                new Item("goggles, fitted particle mask, extraction", "for each maker", "see the cautions on the card"));
        return new SuitSheet(String.join(", ", list.parts()),
                Stream.of(cloths, resins, rest).flatMap(items -> items).toList());
    }

    String html() {
        return PAGE.html(this);
    }

    byte[] pdf() {
        return HtmlPage.pdf(html());
    }

    private static Stream<Item> resin(ShoppingList.Resin resin) {
        return Stream.of(
                new Item(resin.name() + ", resin", grams(resin.resinG()), resin.finish() ? "for the finish coats"
                        : text("for the laminates, losses included; closed tins keep about %.0f months",
                                resin.shelfMonths())),
                new Item(resin.name() + ", hardener", grams(resin.hardenerG()), ""));
    }

    private static Item cloth(ClothLayouts.ClothLayout cloth) {
        String note = text("roll %.0f mm wide, %.0f %% waste as nested", cloth.layout().rollWidthMm(),
                100 * cloth.layout().wasteShare());
        if (!cloth.layout().unplaced().isEmpty()) {
            note += text("; %d pieces do not fit this roll", cloth.layout().unplaced().size());
        }
        return new Item(Words.cloth(cloth.cloth()),
                text("%.2f m", cloth.layout().lengthMm() / 1000), note);
    }

    private static String grams(double g) {
        return text("%.0f g", Math.ceil(g));
    }

    private static String text(String format, Object... figures) {
        return String.format(Locale.ROOT, format, figures);
    }
}
