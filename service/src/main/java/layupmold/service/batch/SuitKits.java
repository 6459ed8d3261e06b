package layupmold.service.batch;

import java.io.IOException;
import java.io.InputStream;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import layupmold.api.ContractJson;
import layupmold.api.kit.KitDocument;
import layupmold.api.kit.KitOutlines;
import layupmold.api.mold.MoldStatus;
import layupmold.geometry.kit.LayupNeeds;
import layupmold.geometry.kit.ShoppingList;
import layupmold.service.jobs.MoldRow;
import layupmold.service.kit.KitReading;
import layupmold.service.kit.MoldKit;
import layupmold.service.kit.SuitKit;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.recipe.AcceptedRecipe;
import layupmold.service.recipe.RecipeReader;
import layupmold.service.report.LookDesk;
import layupmold.service.store.BlobStore;
import org.springframework.stereotype.Component;

/** Adds the kits of a suit's molds up: common rolls and one shopping list. */
@Component
public class SuitKits {

    /** How long one request may make kits that are not there yet; the next one goes on. */
    private static final Duration PATIENCE = Duration.ofSeconds(25);

    private final BatchView view;
    private final LookDesk desk;
    private final MoldKit kits;
    private final RecipeReader recipes;
    private final BlobStore store;

    SuitKits(BatchView view, LookDesk desk, MoldKit kits, RecipeReader recipes, BlobStore store) {
        this.view = view;
        this.desk = desk;
        this.kits = kits;
        this.recipes = recipes;
        this.store = store;
    }

    /**
     * @throws ProblemException if its kits take longer than a request may wait: asking again goes on with the rest
     */
    public SuitKit of(BatchRow batch) throws IOException {
        long end = System.nanoTime() + PATIENCE.toNanos();
        List<LayupNeeds> needs = new ArrayList<>();
        List<String> missing = new ArrayList<>();
        AcceptedRecipe first = null;
        List<BatchView.PartAndMold> parts = view.parts(batch);
        for (int k = 0; k < parts.size(); k++) {
            PartRow part = parts.get(k).part();
            MoldRow mold = parts.get(k).mold();
            if (mold == null || mold.status() != MoldStatus.DONE) {
                missing.add(part.name());
                continue;
            }
            if (System.nanoTime() > end) {
                throw new ProblemException(ProblemKind.OVERLOADED, "The kits of " + k + " of " + parts.size()
                        + " parts are made; ask again for the rest.", BatchView.path(batch.id()), List.of(), List.of());
            }
            first = first == null ? recipes.readStored(mold.recipeJson()) : first;
            KitDocument kit = read(mold, MoldKit.KIT, KitDocument.class);
            KitOutlines outlines = read(mold, MoldKit.OUTLINES, KitOutlines.class);
            for (int n = 1; n <= part.quantity(); n++) {
                String name = part.quantity() == 1 ? part.name() : part.name() + " " + n;
                needs.add(KitReading.needs(name, kit, outlines));
            }
        }
        if (first == null) {
            throw new ProblemException(ProblemKind.NOT_READY, "No part of this suit has a mold.",
                    BatchView.path(batch.id()), List.of(), List.of());
        }
        return new SuitKit(BatchView.path(batch.id()), ShoppingList.of(needs, first.kit().rollWidthMm(),
                first.kit().clearanceMm()), missing);
    }

    private <T> T read(MoldRow mold, String name, Class<T> type) throws IOException {
        LookDesk.Shown shown = desk.file(mold, kits, name)
                .orElseThrow(() -> new IllegalStateException("a kit has no " + name));
        try (InputStream in = store.open(shown.blob().key())) {
            return ContractJson.read(in, type);
        }
    }
}
