package layupmold.service.kit;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
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
     * One part: {@code templates.pdf} (all plies), {@code ply-N.svg}, {@code cut-layout-N.svg} a cloth, {@code
     * shear-N.png} a ply, {@code work-card.html} and {@code work-card.pdf}.
     *
     * @return file name to content, in that order
     * @throws IllegalArgumentException if the templates would take too many pages
     */
    public static Map<String, byte[]> ofPart(LayupKit kit, Recipe recipe, KitSpec spec) {
        Map<String, byte[]> files = new LinkedHashMap<>();
        files.put("templates.pdf", templates(List.of(kit), spec));
        for (PlyTemplate t : kit.templates()) {
            files.put("ply-" + t.number() + ".svg", DrawingSvg.write(TemplateDrawing.of(t), title(t)));
        }
        addLayouts(files, ClothLayouts.of(kit.templates(), spec));
        for (int ply = 0; ply < kit.drapes().size(); ply++) {
            files.put("shear-" + (ply + 1) + ".png", ShearPicture.png(kit, ply, 1600, 1200));
        }
        WorkCard card = WorkCard.of(kit, recipe, spec);
        files.put("work-card.html", card.html().getBytes(StandardCharsets.UTF_8));
        files.put("work-card.pdf", card.pdf());
        return files;
    }

    /** A suit: {@code cut-layout-N.svg} a cloth with the plies of all parts, {@code shopping-list.html} and {@code .pdf}. */
    public static Map<String, byte[]> ofSuit(List<LayupKit> kits, KitSpec spec) {
        Map<String, byte[]> files = new LinkedHashMap<>();
        ShoppingList list = ShoppingList.of(kits, spec);
        addLayouts(files, list.cloths());
        SuitSheet sheet = SuitSheet.of(list, spec);
        files.put("shopping-list.html", sheet.html().getBytes(StandardCharsets.UTF_8));
        files.put("shopping-list.pdf", sheet.pdf());
        return files;
    }

    /** The templates of several parts in one document. */
    public static byte[] templates(List<LayupKit> kits, KitSpec spec) {
        List<Drawing> drawings = new ArrayList<>();
        List<String> titles = new ArrayList<>();
        for (LayupKit kit : kits) {
            for (PlyTemplate t : kit.templates()) {
                drawings.add(TemplateDrawing.of(t));
                titles.add(title(t));
            }
        }
        return TiledPdf.write(drawings, titles, spec.paper());
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
