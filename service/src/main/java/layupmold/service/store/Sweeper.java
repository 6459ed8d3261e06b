package layupmold.service.store;

import java.io.IOException;
import java.time.Clock;
import java.time.Instant;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import layupmold.service.jobs.Retention;
import layupmold.service.settings.StoreSettings;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Component;

/**
 * Removes expired molds, then blobs that no mold refers to. A blob goes only if two sweeps in a row found it unused and
 * old, so that a request under way never loses one. Every node may sweep.
 */
@Component
public class Sweeper {

    private static final Logger LOG = LoggerFactory.getLogger(Sweeper.class);

    private final BlobStore store;
    private final Retention retention;
    private final StoreSettings settings;
    private final Clock clock;
    private Set<String> suspects = Set.of();

    Sweeper(BlobStore store, Retention retention, StoreSettings settings, Clock clock) {
        this.store = store;
        this.retention = retention;
        this.settings = settings;
        this.clock = clock;
    }

    @Scheduled(fixedDelayString = "${layupmold.store.sweep-every:10m}",
            initialDelayString = "${layupmold.store.sweep-every:10m}")
    public synchronized void sweep() throws IOException {
        Instant now = clock.instant();
        int expired = retention.deleteExpired(now);
        Set<String> unused = ConcurrentHashMap.newKeySet();
        store.forEachOlderThan(now.minus(settings.unusedAfter()), key -> {
            if (!retention.uses(key)) {
                unused.add(key);
            }
        });
        int removed = 0;
        for (String key : unused) {
            if (suspects.contains(key)) {
                store.delete(key);
                removed++;
            }
        }
        suspects = unused;
        LOG.debug("swept {} expired molds and {} unused blobs", expired, removed);
    }
}
