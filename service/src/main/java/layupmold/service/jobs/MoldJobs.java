package layupmold.service.jobs;

import java.time.Clock;
import java.time.Instant;
import java.util.Optional;
import java.util.UUID;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.settings.JobSettings;
import layupmold.service.settings.StoreSettings;
import layupmold.service.store.Sha256;
import org.springframework.beans.factory.annotation.Value;
import org.springframework.context.ApplicationEventPublisher;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.stereotype.Service;
import org.springframework.transaction.support.TransactionTemplate;

/** Accepts, cancels and deletes molds. A mold and its place in the queue are committed together or not at all. */
@Service
public class MoldJobs {

    private static final String OPERATION = "post-mold";

    private final MoldTable molds;
    private final KeyTable keys;
    private final Lanes lanes;
    private final TransactionTemplate transaction;
    private final ApplicationEventPublisher events;
    private final JobSettings settings;
    private final StoreSettings store;
    private final String engine;
    private final Clock clock;

    MoldJobs(MoldTable molds, KeyTable keys, Lanes lanes, TransactionTemplate transaction,
            ApplicationEventPublisher events, JobSettings settings, StoreSettings store,
            @Value("${layupmold.version}") String engine, Clock clock) {
        this.molds = molds;
        this.keys = keys;
        this.lanes = lanes;
        this.transaction = transaction;
        this.events = events;
        this.settings = settings;
        this.store = store;
        this.engine = engine;
        this.clock = clock;
    }

    /**
     * Accepts a part. The mold returned is committed; with a key that was used before it is the earlier one.
     *
     * @param key idempotency key, or null
     * @throws ProblemException if the key stood for something else, or too many molds wait
     */
    public MoldRow accept(NewMold mold, String key) {
        MoldRow accepted;
        try {
            accepted = transaction.execute(status -> acceptOnce(mold, key));
        } catch (DuplicateKeyException usedByARequestAtTheSameTime) {
            accepted = transaction.execute(status -> acceptOnce(mold, key));
        }
        lanes.wake(accepted.lane());
        return accepted;
    }

    private MoldRow acceptOnce(NewMold mold, String key) {
        Instant now = clock.instant();
        String fingerprint = Sha256.hex((mold.part().key() + mold.recipe().hash()).getBytes());
        Optional<MoldRow> earlier = key == null ? Optional.empty() : earlier(mold.owner(), key, fingerprint, now);
        if (earlier.isPresent()) {
            return earlier.get();
        }
        Lane lane = lanes.laneFor(mold.part());
        if (molds.unfinished(lane) >= settings.maxQueued()) {
            throw new ProblemException(ProblemKind.OVERLOADED, settings.maxQueued() + " molds are waiting already.");
        }
        String id = UUID.randomUUID().toString();
        molds.insert(id, mold, lane, engine, now);
        molds.findSame(mold.owner(), mold.part().key(), mold.recipe().hash(), engine).ifPresentOrElse(
                same -> molds.finish(id, 0, same.files(), now, expiry(now)),
                () -> lanes.enqueue(lane, id));
        if (key != null) {
            keys.remember(mold.owner(), OPERATION, key, new KeyTable.Remembered(fingerprint, id), now,
                    now.plus(store.keepKeys()));
        }
        return molds.find(id).orElseThrow();
    }

    private Optional<MoldRow> earlier(String owner, String key, String fingerprint, Instant now) {
        return keys.find(owner, OPERATION, key, now).flatMap(remembered -> {
            if (!remembered.fingerprint().equals(fingerprint)) {
                throw new ProblemException(ProblemKind.KEY_REUSED,
                        "The idempotency key was first used with another part or recipe.");
            }
            return molds.find(remembered.result(), owner);
        });
    }

    /** Stops work on a mold; one that is finished stays as it is. */
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
