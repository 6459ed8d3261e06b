package layupmold.service.batch;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.time.Clock;
import java.time.Duration;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import layupmold.service.jobs.Lane;
import layupmold.service.jobs.Lanes;
import layupmold.service.jobs.Like;
import layupmold.service.jobs.MoldJobs;
import layupmold.service.jobs.NewMold;
import layupmold.service.jobs.QueuedWork;
import layupmold.service.recipe.RecipeReader;
import layupmold.service.settings.JobSettings;
import layupmold.service.settings.StoreSettings;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Sorts an accepted suit by shape and queues its molds, all in one transaction: it happens once or not at all. A suit
 * whose comparison fails again and again is made without it.
 */
@Component
class BatchSorting implements QueuedWork {

    private static final Logger LOG = LoggerFactory.getLogger(BatchSorting.class);

    private final BatchTable batches;
    private final SuitSorter sorter;
    private final PartShapes shapes;
    private final MoldJobs jobs;
    private final Lanes lanes;
    private final RecipeReader recipes;
    private final TransactionTemplate transaction;
    private final JobSettings settings;
    private final StoreSettings keeping;
    private final Clock clock;

    BatchSorting(BatchTable batches, SuitSorter sorter, PartShapes shapes, MoldJobs jobs, Lanes lanes,
            RecipeReader recipes, TransactionTemplate transaction, JobSettings settings, StoreSettings keeping,
            Clock clock) {
        this.batches = batches;
        this.sorter = sorter;
        this.shapes = shapes;
        this.jobs = jobs;
        this.lanes = lanes;
        this.recipes = recipes;
        this.transaction = transaction;
        this.settings = settings;
        this.keeping = keeping;
        this.clock = clock;
    }

    @Override
    public Kind kind() {
        return Kind.SORT_BATCH;
    }

    @Override
    public Optional<Duration> run(String id) {
        Optional<BatchRow> begun = batches.begin(id);
        if (begun.isPresent()) {
            List<PartRow> parts = batches.parts(id);
            List<SortedPart> sorted = sorted(begun.get(), parts);
            transaction.executeWithoutResult(status -> queue(begun.get(), sorted));
            for (Lane lane : Lane.values()) {
                lanes.wake(lane);
            }
        }
        return Optional.empty();
    }

    private List<SortedPart> sorted(BatchRow batch, List<PartRow> parts) {
        try {
            return batch.attempt() <= settings.maxTries() ? sorter.sort(parts) : SuitSorter.alone(parts, shapes);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private void queue(BatchRow batch, List<SortedPart> sorted) {
        if (!batches.markSorted(batch.id(), keeping.expiry(clock.instant()))) {
            return;
        }
        Map<Integer, String> moldOf = new HashMap<>();
        for (int pass = 0; pass < 2; pass++) {
            for (SortedPart part : sorted) {
                if (part.model() < 0 == (pass == 0)) {
                    String mold = jobs.add(newMold(batch, part, sorted, moldOf));
                    moldOf.put(part.part().position(), mold);
                    batches.setMold(batch.id(), part.part().position(), part.mesh(), mold, like(part, sorted),
                            part.note());
                }
            }
        }
        LOG.info("suit {} of {} parts needs {} molds made", batch.id(), sorted.size(),
                sorted.stream().filter(part -> part.model() < 0).count());
    }

    private NewMold newMold(BatchRow batch, SortedPart part, List<SortedPart> sorted, Map<Integer, String> moldOf) {
        Like like = null;
        if (part.model() >= 0) {
            SortedPart model = sorted.get(part.model());
            like = new Like(moldOf.get(part.model()), model.mesh(), fileName(model.part()), model.part().name(),
                    part.match().map(), part.match().deviationMm());
        }
        return new NewMold(batch.owner(), part.mesh(), fileName(part.part()),
                recipes.readStored(part.part().recipeJson()), like);
    }

    private static String fileName(PartRow part) {
        return part.file() == null ? part.name() + ".stl" : part.file().substring(part.file().lastIndexOf('/') + 1);
    }

    private static PartRow.Like like(SortedPart part, List<SortedPart> sorted) {
        return part.model() < 0 ? null : new PartRow.Like(sorted.get(part.model()).part().name(),
                part.match().map().mirrors(), part.match().deviationMm());
    }
}
