package layupmold.service.report;

import java.io.IOException;
import java.io.InputStream;
import java.lang.ref.SoftReference;
import java.nio.file.NoSuchFileException;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import layupmold.geometry.MoldOutcome.Mold;
import layupmold.geometry.Progress;
import layupmold.geometry.finding.Rejection;
import layupmold.service.jobs.MoldFiles;
import layupmold.service.jobs.MoldMaking;
import layupmold.service.jobs.MoldRow;
import layupmold.service.making.MoldPackager;
import layupmold.service.making.ReportMapping;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.recipe.AcceptedRecipe;
import layupmold.service.recipe.RecipeReader;
import layupmold.service.report.LookTable.Kept;
import layupmold.service.settings.JobSettings;
import layupmold.service.store.Blob;
import layupmold.service.store.BlobStore;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Gives the files that show a mold, and makes them the first time: most molds are made by programs that never look, and
 * drawing takes longer than making. The mold is made again for it, which gives the same bytes and is checked to.
 */
@Component
public class LookDesk {

    private static final Duration PATIENCE = Duration.ofSeconds(60);

    private final LookTable looks;
    private final MoldMaking making;
    private final MoldPackager packager;
    private final RecipeReader recipes;
    private final BlobStore store;
    private final TransactionTemplate transactions;
    private final JobSettings settings;
    /** One at a time: each holds a whole mold in memory. */
    private final Semaphore turn = new Semaphore(1, true);
    /** Read and written by whose turn it is. */
    private SoftReference<Remade> last = new SoftReference<>(null);

    private record Remade(MoldFiles files, Mold mold) {
    }

    LookDesk(LookTable looks, MoldMaking making, MoldPackager packager, RecipeReader recipes, BlobStore store,
            TransactionTemplate transactions, JobSettings settings) {
        this.looks = looks;
        this.making = making;
        this.packager = packager;
        this.recipes = recipes;
        this.store = store;
        this.transactions = transactions;
        this.settings = settings;
    }

    /** A file in the store. */
    public record Shown(Blob blob, String mediaType) {
    }

    /**
     * @param mold a finished mold
     * @param set what makes the file
     * @param name its name
     * @return empty if the set has no such file
     * @throws ProblemException if too many wait, the mold cannot be made as it was, or the set not be made of it
     */
    public Optional<Shown> file(MoldRow mold, LookSet set, String name) throws IOException {
        if (!isComplete(mold.files(), set)) {
            makeInTurn(mold, set);
        }
        return looks.find(mold.files(), name).map(kept -> new Shown(kept.blob(), kept.mediaType()));
    }

    private void makeInTurn(MoldRow mold, LookSet set) throws IOException {
        try {
            if (!turn.tryAcquire(PATIENCE.toSeconds(), TimeUnit.SECONDS)) {
                throw problem(mold, ProblemKind.OVERLOADED, "Too many reports and kits are being drawn.");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw problem(mold, ProblemKind.OVERLOADED, "The service is stopping.");
        }
        try {
            if (!isComplete(mold.files(), set)) {
                make(mold, set);
            }
        } finally {
            turn.release();
        }
    }

    /** A blob may have been swept since. */
    private boolean isComplete(MoldFiles files, LookSet set) throws IOException {
        Optional<Kept> main = looks.find(files, set.mainFile());
        if (main.isEmpty()) {
            return false;
        }
        try (InputStream in = store.open(main.get().blob().key())) {
            return in != null;
        } catch (NoSuchFileException swept) {
            return false;
        }
    }

    private void make(MoldRow mold, LookSet set) throws IOException {
        AcceptedRecipe recipe = recipes.readStored(mold.recipeJson());
        Map<LookFile, Blob> kept = new LinkedHashMap<>();
        for (LookFile file : drawn(mold, set, recipe)) {
            kept.put(file, store.put(out -> out.write(file.bytes())));
        }
        transactions.executeWithoutResult(status -> {
            kept.keySet().forEach(file -> looks.remove(mold.files(), file.name()));
            kept.forEach((file, blob) -> looks.insert(mold.files(), file.name(), file.mediaType(), blob));
        });
    }

    private List<LookFile> drawn(MoldRow mold, LookSet set, AcceptedRecipe recipe) throws IOException {
        long end = System.nanoTime() + settings.timeLimit().toNanos();
        Progress untilTheLimit = (stage, share) -> {
            if (System.nanoTime() - end > 0) {
                throw new CancellationException();
            }
        };
        try {
            return set.of(title(mold), again(mold, recipe, untilTheLimit), recipe, untilTheLimit);
        } catch (CancellationException e) {
            throw problem(mold, ProblemKind.TIME_LIMIT, "Drawing the mold took too long.");
        } catch (Rejection rejection) {
            throw new ProblemException(ProblemKind.KIT_REFUSED, rejection.finding().message(), self(mold), List.of(),
                    ReportMapping.REPORTS.toContract(List.of(rejection.finding())));
        }
    }

    /** Who asks for a mold's report often asks for its kit next: the last one is held as long as memory lasts. */
    private Mold again(MoldRow mold, AcceptedRecipe recipe, Progress progress) throws IOException {
        Remade held = last.get();
        if (held != null && held.files().equals(mold.files())) {
            return held.mold();
        }
        if (!(making.make(mold, recipe.geometry(), progress) instanceof Mold made)
                || !packager.write(made, recipe, mold.part().key()).equals(mold.files())) {
            throw problem(mold, ProblemKind.NOT_READY,
                    "This version of the service makes another mold of this part. Post the part again.");
        }
        last = new SoftReference<>(new Remade(mold.files(), made));
        return made;
    }

    /** Only what the recipe says: files are shared by all who posted the same, whatever they called theirs. */
    private static String title(MoldRow mold) {
        return mold.title() != null ? mold.title() : "Mold";
    }

    private static ProblemException problem(MoldRow mold, ProblemKind kind, String detail) {
        return new ProblemException(kind, detail, self(mold), List.of(), List.of());
    }

    private static String self(MoldRow mold) {
        return "/v1/molds/" + mold.id();
    }
}
