package layupmold.service.report;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.NoSuchFileException;
import java.time.Duration;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.CancellationException;
import java.util.concurrent.Semaphore;
import java.util.concurrent.TimeUnit;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.Progress;
import layupmold.service.jobs.MoldFiles;
import layupmold.service.jobs.MoldRow;
import layupmold.service.making.MoldMaker;
import layupmold.service.making.MoldPackager;
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
    private final MoldMaker maker;
    private final MoldPackager packager;
    private final MoldLook look;
    private final RecipeReader recipes;
    private final BlobStore store;
    private final TransactionTemplate transactions;
    private final JobSettings settings;
    /** One at a time: each holds a whole mold in memory. */
    private final Semaphore turn = new Semaphore(1, true);

    LookDesk(LookTable looks, MoldMaker maker, MoldPackager packager, MoldLook look, RecipeReader recipes,
            BlobStore store, TransactionTemplate transactions, JobSettings settings) {
        this.looks = looks;
        this.maker = maker;
        this.packager = packager;
        this.look = look;
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
     * @param name one of the names of {@link MoldLook}
     * @return empty if its look has no such file
     * @throws ProblemException if too many wait, or the mold cannot be made as it was
     */
    public Optional<Shown> file(MoldRow mold, String name) throws IOException {
        if (!isComplete(mold.files())) {
            makeInTurn(mold);
        }
        return looks.find(mold.files(), name).map(kept -> new Shown(kept.blob(), kept.mediaType()));
    }

    private void makeInTurn(MoldRow mold) throws IOException {
        try {
            if (!turn.tryAcquire(PATIENCE.toSeconds(), TimeUnit.SECONDS)) {
                throw problem(mold, ProblemKind.OVERLOADED, "Too many report pages are being drawn.");
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            throw problem(mold, ProblemKind.OVERLOADED, "The service is stopping.");
        }
        try {
            if (!isComplete(mold.files())) {
                make(mold);
            }
        } finally {
            turn.release();
        }
    }

    /** The page is written last and needs all the others; its blob may have been swept since. */
    private boolean isComplete(MoldFiles files) throws IOException {
        Optional<Kept> page = looks.find(files, MoldLook.PAGE);
        if (page.isEmpty()) {
            return false;
        }
        try (InputStream in = store.open(page.get().blob().key())) {
            return in != null;
        } catch (NoSuchFileException swept) {
            return false;
        }
    }

    private void make(MoldRow mold) throws IOException {
        AcceptedRecipe recipe = recipes.readStored(mold.recipeJson());
        MoldOutcome outcome = again(mold, recipe);
        if (!(outcome instanceof MoldOutcome.Mold made)
                || !packager.write(made, recipe, mold.part().key()).equals(mold.files())) {
            throw problem(mold, ProblemKind.NOT_READY,
                    "This version of the service makes another mold of this part. Post the part again.");
        }
        Map<LookFile, Blob> kept = new LinkedHashMap<>();
        for (LookFile file : look.of(title(mold), made, recipe.geometry())) {
            kept.put(file, store.put(out -> out.write(file.bytes())));
        }
        transactions.executeWithoutResult(status -> {
            looks.clear(mold.files());
            kept.forEach((file, blob) -> looks.insert(mold.files(), file.name(), file.mediaType(), blob));
        });
    }

    private MoldOutcome again(MoldRow mold, AcceptedRecipe recipe) throws IOException {
        byte[] part;
        try (InputStream in = store.open(mold.part().key())) {
            part = in.readAllBytes();
        }
        long end = System.nanoTime() + settings.timeLimit().toNanos();
        Progress untilTheLimit = (stage, share) -> {
            if (System.nanoTime() - end > 0) {
                throw new CancellationException();
            }
        };
        try {
            return maker.make(part, mold.partName(), recipe.geometry(), untilTheLimit);
        } catch (CancellationException e) {
            throw problem(mold, ProblemKind.TIME_LIMIT, "Drawing the mold took too long.");
        }
    }

    /** Only what the recipe says: files are shared by all who posted the same, whatever they called theirs. */
    private static String title(MoldRow mold) {
        return mold.title() != null ? mold.title() : "Mold";
    }

    private static ProblemException problem(MoldRow mold, ProblemKind kind, String detail) {
        return new ProblemException(kind, detail, "/v1/molds/" + mold.id(), List.of(), List.of());
    }
}
