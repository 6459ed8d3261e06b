package layupmold.service.jobs;

import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import layupmold.service.idempotency.KeyedRequest;
import layupmold.service.idempotency.OncePerKey;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.settings.JobSettings;
import layupmold.service.settings.StoreSettings;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.stereotype.Service;

/** Accepts, cancels and deletes molds. A mold and its place in the queue are committed together or not at all. */
@Service
public class MoldJobs {

    private final MoldTable molds;
    private final OncePerKey once;
    private final LikeTable likes;
    private final Lanes lanes;
    private final ApplicationEventPublisher events;
    private final JobSettings settings;
    private final StoreSettings store;
    private final String engine;
    private final Clock clock;

    MoldJobs(MoldTable molds, OncePerKey once, LikeTable likes, Lanes lanes, ApplicationEventPublisher events,
            JobSettings settings, StoreSettings store, @Value("${layupmold.version}") String engine, Clock clock) {
        this.molds = molds;
        this.once = once;
        this.likes = likes;
        this.lanes = lanes;
        this.events = events;
        this.settings = settings;
        this.store = store;
        this.engine = engine;
        this.clock = clock;
    }

    /**
     * Accepts a part. The mold returned is committed; if the request was sent before with the same key it is the earlier
     * one.
     *
     * @throws ProblemException if the key stood for something else, or too many molds wait
     */
    public MoldRow accept(NewMold mold, KeyedRequest request) {
        MoldRow accepted = once.run(request, List.of(mold.part().key(), mold.recipe().hash()), () -> insert(mold),
                MoldRow::id, id -> molds.find(id, mold.owner()));
        lanes.wake(accepted.lane());
        return accepted;
    }

    private MoldRow insert(NewMold mold) {
        Instant now = clock.instant();
        Lane lane = lanes.laneFor(mold.part());
        if (molds.unfinished(lane) >= settings.maxQueued()) {
            throw new ProblemException(ProblemKind.OVERLOADED, settings.maxQueued() + " molds are waiting already.");
        }
        String id = add(mold, lane, now);
        return molds.find(id).orElseThrow();
    }

    /**
     * Accepts a part in the caller's transaction; the lanes must be woken after it. There is no bound on how many wait.
     *
     * @return identifier of its mold
     */
    public String add(NewMold mold) {
        return add(mold, lanes.laneFor(mold.part()), clock.instant());
    }

    private String add(NewMold mold, Lane lane, Instant now) {
        String id = UUID.randomUUID().toString();
        molds.insert(id, mold, lane, engine, now);
        molds.findSame(mold.owner(), mold.part().key(), mold.recipe().hash(), engine).ifPresentOrElse(
                same -> {
                    molds.finish(id, 0, same.files(), now, expiry(now));
                    likes.find(same.id()).ifPresent(like -> likes.insert(id, like));
                },
                () -> {
                    if (mold.like() != null) {
                        likes.insert(id, mold.like());
                    }
                    lanes.enqueue(lane, QueuedWork.Kind.MAKE_MOLD, id);
                });
        return id;
    }

    /** Stops work on a mold; one that is finished stays as it is. Empty if there is none. */
    public Optional<MoldRow> cancel(String id, String owner) {
        Instant now = clock.instant();
        return molds.find(id, owner).map(mold -> {
            molds.cancel(mold.id(), now, expiry(now));
            events.publishEvent(new MoldChanged(id));
            return molds.find(id).orElse(mold);
        });
    }

    /** @return false if there was none */
    public boolean delete(String id, String owner) {
        boolean gone = molds.delete(id, owner);
        events.publishEvent(new MoldChanged(id));
        return gone;
    }

    private Instant expiry(Instant now) {
        return store.expiry(now);
    }
}
