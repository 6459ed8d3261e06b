package layupmold.service.kit;

import java.util.List;
import java.util.Map;
import layupmold.api.kit.KitFile;
import layupmold.api.kit.ResinNeed;
import layupmold.api.kit.SuitKitDocument;
import layupmold.geometry.kit.ShoppingList;

/**
 * A suit's kits added up.
 *
 * @param batch path of the suit
 * @param list what it takes
 * @param missing names of parts without a mold
 */
public record SuitKit(String batch, ShoppingList list, List<String> missing) {

    private static final String FOLDER = "kit/";

    /** {@code cut-layout-N.svg} a cloth, {@code shopping-list.html} and {@code .pdf}. */
    public Map<String, byte[]> files() {
        return KitPrints.ofSuit(list);
    }

    public SuitKitDocument document() {
        return new SuitKitDocument(batch, list.parts(), missing,
                list.cloths().stream().map(KitFiguresMapping::cloth).toList(),
                list.resins().stream().map(r -> new ResinNeed(r.name(), r.finish(), r.resinG(), r.hardenerG())).toList(),
                list.cups(), list.brushes(), list.glovePairs(), list.laminateMm2(),
                files().keySet().stream().map(name -> new KitFile(FOLDER + name, MoldKit.mediaType(name))).toList());
    }
}
