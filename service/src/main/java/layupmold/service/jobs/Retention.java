package layupmold.service.jobs;

import java.time.Instant;
import layupmold.service.idempotency.KeyTable;
import org.springframework.stereotype.Component;

/** What may be forgotten. */
@Component
public class Retention {

    private final MoldTable molds;
    private final KeyTable keys;

    Retention(MoldTable molds, KeyTable keys) {
        this.molds = molds;
        this.keys = keys;
    }

    /** Forgets molds and idempotency keys whose time is over; returns how many molds. */
    public int deleteExpired(Instant now) {
        keys.deleteExpired(now);
        int gone = molds.deleteExpired(now);
        molds.deleteExpiredBatches(now);
        molds.deleteOrphanedLooks();
        return gone;
    }

    /** Whether any mold refers to a blob. */
    public boolean uses(String blobKey) {
        return molds.uses(blobKey);
    }
}
