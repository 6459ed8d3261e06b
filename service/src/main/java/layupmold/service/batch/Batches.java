package layupmold.service.batch;

import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import java.util.UUID;
import layupmold.service.idempotency.KeyedRequest;
import layupmold.service.idempotency.OncePerKey;
import layupmold.service.jobs.Lane;
import layupmold.service.jobs.Lanes;
import layupmold.service.jobs.MoldJobs;
import layupmold.service.jobs.MoldTable;
import layupmold.service.jobs.QueuedWork;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.settings.JobSettings;
import layupmold.service.settings.StoreSettings;
import org.springframework.stereotype.Service;

/** Accepts, cancels and deletes suits. A suit and its place in the queue are committed together or not at all. */
@Service
public class Batches {

    private final BatchTable batches;
    private final ManifestReader manifests;
    private final MoldTable molds;
    private final MoldJobs jobs;
    private final Lanes lanes;
    private final OncePerKey once;
    private final JobSettings settings;
    private final StoreSettings keeping;
    private final Clock clock;

    Batches(BatchTable batches, ManifestReader manifests, MoldTable molds, MoldJobs jobs, Lanes lanes,
            OncePerKey once, JobSettings settings, StoreSettings keeping, Clock clock) {
        this.batches = batches;
        this.manifests = manifests;
        this.molds = molds;
        this.jobs = jobs;
        this.lanes = lanes;
        this.once = once;
        this.settings = settings;
        this.keeping = keeping;
        this.clock = clock;
    }

    /**
     * Accepts a suit. What is returned is committed; if the request was sent before with the same key it is the earlier
     * one.
     *
     * @throws ProblemException if its manifest cannot be accepted, the key stood for something else, or too many molds wait
     */
    public BatchRow accept(SuitArchive archive, KeyedRequest request) {
        SuitPlan plan = manifests.read(archive);
        BatchRow accepted = once.run(request, archive.fingerprint(), () -> insert(request.owner(), plan), BatchRow::id,
                id -> batches.find(id, request.owner()));
        lanes.wake(Lane.LIGHT);
        return accepted;
    }

    private BatchRow insert(String owner, SuitPlan plan) {
        if (molds.unfinished(Lane.LIGHT) + plan.parts().size() > settings.maxQueued()) {
            throw new ProblemException(ProblemKind.OVERLOADED, "Too many molds are waiting already.");
        }
        String id = UUID.randomUUID().toString();
        batches.insert(id, owner, plan, clock.instant());
        lanes.enqueue(Lane.LIGHT, QueuedWork.Kind.SORT_BATCH, id);
        return batches.find(id, owner).orElseThrow();
    }

    /** Stops work on all its molds; finished ones stay. */
    public Optional<BatchRow> cancel(String id, String owner) {
        return batches.find(id, owner).map(batch -> {
            Instant now = clock.instant();
            batches.markSorted(id, keeping.expiry(now));
            molds(id).forEach(mold -> jobs.cancel(mold, owner));
            return batches.find(id, owner).orElse(batch);
        });
    }

    /** Deletes it with all its molds. @return false if there was none */
    public boolean delete(String id, String owner) {
        List<String> molds = molds(id);
        boolean gone = batches.delete(id, owner);
        if (gone) {
            molds.forEach(mold -> jobs.delete(mold, owner));
        }
        return gone;
    }

    private List<String> molds(String id) {
        return batches.parts(id).stream().map(PartRow::mold).filter(Objects::nonNull).toList();
    }
}
