package layupmold.service.kit;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import layupmold.api.ContractJson;
import layupmold.api.kit.KitDocument;
import layupmold.api.kit.KitFile;
import layupmold.geometry.MoldOutcome.Mold;
import layupmold.geometry.Progress;
import layupmold.geometry.kit.ClothLayouts;
import layupmold.geometry.kit.LayupKit;
import layupmold.service.recipe.AcceptedRecipe;
import layupmold.service.report.LookFile;
import layupmold.service.report.LookSet;
import org.springframework.stereotype.Component;

/** Makes the layup kit of a mold: figures as JSON, everything else on paper. Seconds of work. */
@Component
public class MoldKit implements LookSet {

    public static final String KIT = "kit.json";
    public static final String FOLDER = "kit/";
    public static final String RESIN = FOLDER + "resin.json";
    public static final String OUTLINES = FOLDER + "outlines.json";

    private static final String JSON = "application/json";
    private static final Map<String, String> MEDIA_TYPES = Map.of(
            "pdf", "application/pdf", "svg", "image/svg+xml", "png", "image/png", "html", "text/html", "json", JSON);

    static String mediaType(String fileName) {
        return MEDIA_TYPES.get(fileName.substring(fileName.lastIndexOf('.') + 1));
    }

    @Override
    public String mainFile() {
        return KIT;
    }

    @Override
    public List<LookFile> of(String title, Mold mold, AcceptedRecipe recipe, Progress progress) {
        progress.at("drape", 0);
        LayupKit kit = LayupKit.of(title, mold, recipe.geometry(), recipe.kit());
        List<ClothLayouts.ClothLayout> cloths = ClothLayouts.of(kit.templates(), recipe.kit());
        KitPrints.Printed printed = KitPrints.ofPart(kit, cloths, recipe.geometry(), recipe.kit());
        List<LookFile> files = new ArrayList<>();
        printed.files().forEach((name, bytes) -> files.add(
                new LookFile(FOLDER + name, mediaType(name), bytes)));
        files.add(new LookFile(OUTLINES, JSON, ContractJson.write(KitFiguresMapping.outlines(kit))));
        KitDocument document = KitFiguresMapping.document(kit, cloths, recipe, printed.findings(), files.stream()
                .map(file -> new KitFile(file.name(), file.mediaType())).toList());
        files.add(new LookFile(RESIN, JSON, ContractJson.write(document.resin())));
        files.add(new LookFile(KIT, JSON, ContractJson.write(document)));
        return files;
    }
}
