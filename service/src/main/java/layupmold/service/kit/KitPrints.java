package layupmold.service.kit;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.IdentityHashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import layupmold.geometry.drape.DrapedPly;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.kit.ClothLayouts;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.kit.LayupKit;
import layupmold.geometry.kit.PlyTemplate;
import layupmold.geometry.kit.ShoppingList;
import layupmold.geometry.recipe.Recipe;

/** Everything of a kit that goes on paper, by file name. */
public final class KitPrints {

    private static final double OVERVIEW_MM = 180;

    private KitPrints() {
    }

    /**
     * @param files by file name
     * @param findings what could not be drawn
     */
    public record Printed(Map<String, byte[]> files, List<Finding> findings) {
    }

    /**
     * One part: {@code templates-PAPER.pdf} (all plies; left out, with a finding, where it would take too many pages),
     * {@code ply-N.svg}, {@code cut-layout-N.svg} a cloth, {@code shear-N.png} a ply, {@code work-card.html} and {@code
     * work-card.pdf}, in that order.
     *
     * @param cloths layouts of the kit's templates
     */
    public static Printed ofPart(LayupKit kit, List<ClothLayouts.ClothLayout> cloths, Recipe recipe, KitSpec spec) {
        Map<String, byte[]> files = new LinkedHashMap<>();
        List<Finding> findings = new ArrayList<>();
        for (KitSpec.Paper paper : KitSpec.Paper.values()) {
            templates(List.of(kit), paper).ifPresentOrElse(
                    pdf -> files.put("templates-" + paper.name().toLowerCase(Locale.ROOT) + ".pdf", pdf),
                    () -> findings.add(tooManyPages(paper)));
        }
        for (PlyTemplate t : kit.templates()) {
            files.put("ply-" + t.number() + ".svg", DrawingSvg.write(TemplateDrawing.of(t), title(t)));
        }
        addLayouts(files, cloths);
        addShear(files, kit);
        WorkCard card = WorkCard.of(kit, recipe, spec);
        files.put("work-card.html", card.html().getBytes(StandardCharsets.UTF_8));
        files.put("work-card.pdf", card.pdf());
        return new Printed(files, findings);
    }

    /** A suit: {@code cut-layout-N.svg} a cloth with the plies of all parts, {@code shopping-list.html} and {@code .pdf}. */
    public static Map<String, byte[]> ofSuit(ShoppingList list) {
        Map<String, byte[]> files = new LinkedHashMap<>();
        addLayouts(files, list.cloths());
        SuitSheet sheet = SuitSheet.of(list);
        files.put("shopping-list.html", sheet.html().getBytes(StandardCharsets.UTF_8));
        files.put("shopping-list.pdf", sheet.pdf());
        return files;
    }

    /** The templates of several parts in one document; empty if it would take more pages than anyone will tape. */
    public static Optional<byte[]> templates(List<LayupKit> kits, KitSpec.Paper paper) {
        List<Drawing> drawings = new ArrayList<>();
        List<String> titles = new ArrayList<>();
        for (LayupKit kit : kits) {
            for (PlyTemplate t : kit.templates()) {
                drawings.add(TemplateDrawing.of(t));
                titles.add(title(t));
            }
        }
        return TiledPdf.pages(drawings, paper) > TiledPdf.MOST_PAGES
                ? Optional.empty() : Optional.of(TiledPdf.write(drawings, titles, paper));
    }

    private static Finding tooManyPages(KitSpec.Paper paper) {
        return Finding.info("kit", "templates-take-too-many-pages", "The templates are not given on "
                + paper.name().toLowerCase(Locale.ROOT) + ": they would take more than " + TiledPdf.MOST_PAGES
                + " pages.").advising("Print the SVG of each ply on a plotter, or take larger paper.");
    }

    /** Plies that share their drape share their picture. */
    private static void addShear(Map<String, byte[]> files, LayupKit kit) {
        Map<DrapedPly, byte[]> drawn = new IdentityHashMap<>();
        for (int ply = 0; ply < kit.drapes().size(); ply++) {
            int index = ply;
            files.put("shear-" + (ply + 1) + ".png", drawn.computeIfAbsent(kit.drapes().get(ply),
                    d -> ShearPicture.png(kit, index, 1600, 1200)));
        }
    }

    private static void addLayouts(Map<String, byte[]> files, List<ClothLayouts.ClothLayout> layouts) {
        for (int k = 0; k < layouts.size(); k++) {
            files.put("cut-layout-" + (k + 1) + ".svg", DrawingSvg.overview(ClothLayoutDrawing.of(layouts.get(k)),
                    "Cut layout " + (k + 1), OVERVIEW_MM));
        }
    }

    private static String title(PlyTemplate t) {
        return t.part() + ", ply " + t.number() + " of " + t.of();
    }
}
