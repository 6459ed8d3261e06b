package layupmold.service.kit;

import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Locale;
import layupmold.geometry.drape.DrapeFigures;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Severity;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.kit.LayupKit;
import layupmold.geometry.kit.PlyTemplate;
import layupmold.geometry.kit.ResinPlan;
import layupmold.geometry.kit.ResinSpec;
import layupmold.geometry.laminate.MaterialTables;
import layupmold.geometry.laminate.OffsetRule;
import layupmold.geometry.recipe.Recipe;

/**
 * The steps from print to polish with one part's figures, to be pinned over the bench.
 *
 * <p>The record's components are what the page's template names.
 *
 * @param title name of the part
 * @param summary what it will weigh and how thick it will be
 * @param picture the tool with its shear map, PNG in base 64
 * @param plies a row a ply
 * @param mixes a row a coat
 * @param steps in the order of the work
 * @param notes what draping and mixing found
 * @param cautions what can hurt
 */
record WorkCard(
        String title, String summary, String picture, List<PlyRow> plies, List<MixRow> mixes, List<Step> steps,
        List<String> notes, List<String> cautions) {

    private static final HtmlPage PAGE = new HtmlPage("work-card.mustache");

    private static final List<String> CAUTIONS = List.of(
            "Resin and hardener irritate skin and eyes and can cause allergy for life: nitrile gloves, goggles, long "
                    + "sleeves, fresh air. Follow the data sheets of the products in hand and local rules; they go "
                    + "before this card.",
            "Mixed resin heats itself, a full cup enough to smoke or burn: keep to the cup sizes, spread it at once, "
                    + "stand leftovers outside on stone.",
            "Carbon and glass dust harms lungs, eyes and skin, and carbon dust shorts electrics: trim and sand wet, "
                    + "with extraction and a fitted particle mask.",
            "Cut edges and demolded rims are sharp; wedge away from yourself.",
            "Warmth softens printed molds: do not post-cure hotter than the print stands.",
            "A part made this way is not certified protective equipment. Where a life may hang on it, ask licensed "
                    + "practice.");

    record PlyRow(int number, String cloth, String area, String shear, String darts) {
    }

    record MixRow(String coat, String total, int cups, String resin, String hardener) {
    }

    record Step(String name, String text) {
    }

    static WorkCard of(LayupKit kit, Recipe recipe, KitSpec spec) {
        return new WorkCard(kit.part(), summary(kit, recipe),
                Base64.getEncoder().encodeToString(ShearPicture.png(kit, 0, 1200, 800)),
                kit.templates().stream().map(t -> plyRow(kit, t)).toList(),
                kit.resin().coats().stream().map(WorkCard::mixRow).toList(), steps(kit, recipe, spec),
                kit.findings().stream().filter(f -> f.severity() != Severity.INFO).map(WorkCard::note).toList(),
                CAUTIONS);
    }

    /** Named by the page's template: an empty list gets no heading. */
    boolean hasNotes() {
        return !notes.isEmpty();
    }

    String html() {
        return PAGE.html(this);
    }

    byte[] pdf() {
        return HtmlPage.pdf(html());
    }

    private static String summary(LayupKit kit, Recipe recipe) {
        return text("%d plies, %.2f mm thick, about %.0f g before the finish coat (fibre volume %.0f %%). %s",
                kit.templates().size(), kit.laminate().laminateMm(), kit.partG(),
                100 * kit.laminate().fibreVolumeFraction(), OffsetRule.words(recipe.tool(), recipe.hold(),
                        kit.laminate().laminateMm(), recipe.releaseMm(), recipe.layup().finishCoatMm()));
    }

    private static PlyRow plyRow(LayupKit kit, PlyTemplate t) {
        DrapeFigures figures = kit.drapes().get(t.number() - 1).figures();
        return new PlyRow(t.number(), TemplateDrawing.cloth(t.ply()), text("%.0f cm²", t.clothMm2() / 100),
                text("%.0f° of %.0f°", figures.maxShearDeg(), kit.drapes().get(t.number() - 1).spec().lockingDeg()),
                t.pattern().darts().isEmpty() ? "none" : String.valueOf(t.pattern().darts().size()));
    }

    private static MixRow mixRow(ResinPlan.Coat coat) {
        String name = switch (coat.stage()) {
            case BEFORE_PLY -> "brush on before ply " + coat.number();
            case WET_OUT -> "wet out ply " + coat.number();
            case FINISH -> "finish coat " + coat.number();
        };
        return new MixRow(name, text("%.1f g", coat.mixedG()), coat.cups(),
                text("%.1f g (%.1f ml)", coat.cupResinG(), coat.cupResinMl()),
                text("%.1f g (%.1f ml)", coat.cupHardenerG(), coat.cupHardenerMl()));
    }

    private static List<Step> steps(LayupKit kit, Recipe recipe, KitSpec spec) {
        ResinSpec resin = spec.resin();
        MaterialTables.PrintMaterial print = MaterialTables.printMaterial(recipe.printer().material());
        List<Step> steps = new ArrayList<>();
        steps.add(new Step("Print", text("%s, %.1f mm nozzle, layers of %.2f mm, %d lines, flat side down, no "
                + "supports. The print softens at about %.0f °C. Print the coupon first and go the whole way on it.", recipe.printer().material(),
                recipe.printer().nozzleMm(), recipe.inspect().layerMm(), recipe.inspect().wallLines(),
                print.softensC())));
        steps.add(new Step("Sand the tool", "Take the layer lines off the tool surface and the flange with P240, then "
                + "P400; keep the trim line's groove. Wash and dry."));
        steps.add(new Step("Wax", text("Thin coats of release wax, each buffed, then the release film: about %.2f mm in "
                + "all. Do the flange too.", recipe.releaseMm())));
        steps.add(new Step("Cut", text("Tape the template pages together by their crosses, check the 100 mm scale, cut "
                + "%d plies with the warp along the arrow. Mark start cross and ply number.%s", kit.templates().size(),
                recipe.openings().hasPlugs()
                        ? " Cut out the openings in which a core plug stands; the ply ends at its wall." : "")));
        steps.add(new Step("Weigh and mix", text("%s, %s. Scales to 0.1 g. Mix two minutes, pour into a second clean "
                + "cup, mix again. Pot life here about %.0f min. Check the tins: closed they keep about %.0f months.",
                resin.name(), ratio(resin), kit.resin().potLifeMin(), resin.shelfMonths())));
        steps.add(new Step("Lay", "For each ply: brush on its first coat, set the start cross on the start mark with "
                + "the arrow along the mold's warp direction, smooth outwards along both threads, then the quarters "
                + "between; butt the darts; wet out. No dry places, no pools."));
        steps.add(new Step("Cure", text("At least %.0f h at 20 °C before demolding, %.0f h before sanding or load; "
                + "longer when cooler. The next coat keys without sanding until about %.1f h.", resin.demoldHours(),
                resin.fullCureHours(), resin.tackHours())));
        steps.add(new Step("Mark the trim line", "Draw along the groove, at the perimeter and around the openings, while "
                + "the part still sits in the mold."));
        steps.add(new Step("Demold", "Plastic wedges all around under the flange, a little at a time; then pull along "
                + "the mold's vertical."));
        steps.add(new Step("Trim", "Saw just outside the line, sand down to it wet."));
        steps.add(new Step("Sand wet", "P400, P800, P1000, P2000 (FEPA grits), each until the last one's marks are "
                + "gone."));
        steps.add(new Step("Finish coat", text("%s, %d coats over %.0f cm², %.1f g mixed in all; hard after up to "
                + "%.0f h.", spec.coatResin().name(), spec.finishCoats(), kit.resin().finishMm2() / 100,
                kit.resin().finishResinG() + kit.resin().finishHardenerG(), spec.coatResin().fullCureHours())));
        steps.add(new Step("Polish", "P2000 wet, then polish by hand or slow machine."));
        return steps;
    }

    private static String ratio(ResinSpec resin) {
        return text("100 to %.0f by %s", resin.hardenerPer100(),
                resin.mixBy() == ResinSpec.MixBy.MASS ? "mass" : "volume");
    }

    private static String note(Finding f) {
        return f.advice() == null ? f.message() : f.message() + " " + f.advice();
    }

    private static String text(String format, Object... figures) {
        return String.format(Locale.ROOT, format, figures);
    }
}
