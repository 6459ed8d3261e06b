package layupmold.service.batch;

import java.io.IOException;
import java.io.InputStream;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import layupmold.api.ContractJson;
import layupmold.api.batch.AttentionNeed;
import layupmold.api.batch.BatchResource;
import layupmold.api.batch.ClothNeed;
import layupmold.api.batch.FilamentNeed;
import layupmold.api.batch.SuitSummary;
import layupmold.api.batch.SuitSummaryPart;
import layupmold.api.mold.MoldStatus;
import layupmold.api.problem.Problem;
import layupmold.api.recipe.PlyRecipe;
import layupmold.api.recipe.PrintMaterial;
import layupmold.api.recipe.WeaveKind;
import layupmold.api.report.MoldReportDocument;
import layupmold.api.report.ReportFinding;
import layupmold.api.report.SeverityLevel;
import layupmold.service.http.MoldView;
import layupmold.service.jobs.MoldRow;
import layupmold.service.recipe.AcceptedRecipe;
import layupmold.service.recipe.RecipeReader;
import layupmold.service.store.BlobStore;
import org.springframework.stereotype.Component;

/** Adds up what a suit needs from its molds' reports. */
@Component
public class SuitSummaries {

    private final BatchView view;
    private final BlobStore store;
    private final RecipeReader recipes;

    SuitSummaries(BatchView view, BlobStore store, RecipeReader recipes) {
        this.view = view;
        this.store = store;
        this.recipes = recipes;
    }

    private record Cloth(WeaveKind weave, double arealWeightGsm) {
    }

    /** The sums so far. */
    private static final class Sums {
        final Map<PrintMaterial, Double> filamentG = new EnumMap<>(PrintMaterial.class);
        final Map<Cloth, Double> clothM2 = new LinkedHashMap<>();
        final List<SuitSummaryPart> parts = new ArrayList<>();
        final List<AttentionNeed> attention = new ArrayList<>();
        int pieces;
        int molds;
        double hours;
        double resinG;
        double hardenerG;
    }

    public SuitSummary of(BatchRow batch) throws IOException {
        List<BatchView.PartAndMold> parts = view.parts(batch);
        BatchResource resource = view.resource(batch, parts);
        Sums sums = new Sums();
        Set<String> printed = new HashSet<>();
        for (BatchView.PartAndMold both : parts) {
            add(both, printed, sums);
        }
        return new SuitSummary(BatchView.path(batch.id()), batch.title(), resource.status(), sums.pieces, sums.molds,
                sums.filamentG.entrySet().stream().map(e -> new FilamentNeed(e.getKey(), e.getValue())).toList(),
                sums.hours,
                sums.clothM2.entrySet().stream()
                        .map(e -> new ClothNeed(e.getKey().weave(), e.getKey().arealWeightGsm(), e.getValue())).toList(),
                sums.resinG, sums.hardenerG, sums.attention, sums.parts, PartNeeds.BASIS);
    }

    private void add(BatchView.PartAndMold both, Set<String> printed, Sums sums) throws IOException {
        PartRow part = both.part();
        MoldRow mold = both.mold();
        sums.pieces += part.quantity();
        if (part.note() != null) {
            sums.attention.add(new AttentionNeed(part.name(), part.note()));
        }
        if (mold == null || mold.status() != MoldStatus.DONE) {
            withoutMold(part, mold, sums);
            return;
        }
        MoldReportDocument report = report(mold);
        AcceptedRecipe recipe = recipes.readStored(mold.recipeJson());
        PartNeeds needs = PartNeeds.of(report, recipe.geometry().layup(), recipe.kit());
        // A part that is another one moved is laid up in that one's mold, if that was made.
        String serves = part.like() == null || part.like().mirrored() ? part.name() : part.like().name();
        boolean prints = printed.add(serves);
        List<PlyRecipe> plies = report.recipe().layup().plies();
        double cloth = 0;
        for (int k = 0; k < plies.size(); k++) {
            double area = needs.clothM2().get(k) * part.quantity();
            cloth += area;
            sums.clothM2.merge(new Cloth(plies.get(k).weave(), plies.get(k).arealWeightGsm()), area, Double::sum);
        }
        sums.resinG += part.quantity() * needs.resinG();
        sums.hardenerG += part.quantity() * needs.hardenerG();
        if (prints) {
            sums.molds++;
            sums.hours += needs.printHours();
            sums.filamentG.merge(report.recipe().printer().material(), needs.filamentG(), Double::sum);
        }
        List<ReportFinding> warnings = report.findings().stream()
                .filter(finding -> finding.severity() != SeverityLevel.INFO).toList();
        warnings.forEach(finding -> sums.attention.add(new AttentionNeed(part.name(), finding.message())));
        sums.parts.add(new SuitSummaryPart(part.name(), part.quantity(), mold.status(), BatchView.likeness(part),
                MoldView.path(mold.id()), prints, report.body().sizeMm(), prints ? needs.filamentG() : 0,
                prints ? needs.printHours() : 0, cloth, part.quantity() * (needs.resinG() + needs.hardenerG()),
                warnings.size()));
    }

    private static void withoutMold(PartRow part, MoldRow mold, Sums sums) {
        MoldStatus status = mold == null ? MoldStatus.CANCELLED : mold.status();
        if (status.isFinal()) {
            Problem problem = mold == null ? null : MoldView.problem(mold);
            sums.attention.add(new AttentionNeed(part.name(), problem == null ? "It has no mold: it was cancelled or deleted."
                    : "It has no mold: " + problem.detail()));
        }
        sums.parts.add(new SuitSummaryPart(part.name(), part.quantity(), status, BatchView.likeness(part),
                mold == null ? null : MoldView.path(mold.id()), false, null, 0, 0, 0, 0, 0));
    }

    private MoldReportDocument report(MoldRow mold) throws IOException {
        try (InputStream in = store.open(mold.files().report().key())) {
            return ContractJson.read(in, MoldReportDocument.class);
        }
    }
}
