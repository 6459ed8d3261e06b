package layupmold.service.events;

import java.time.Duration;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import layupmold.service.jobs.MoldChanged;
import layupmold.service.jobs.MoldRow;
import layupmold.service.jobs.MoldTable;
import layupmold.service.settings.WaitSettings;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;

/**
 * Tells listeners of changes to molds: at once when this process made them, within a poll when another node did. Waiting
 * costs no thread.
 */
@Component
public class MoldWatch implements DisposableBean {

    /** A listener's registration; closing it ends it. */
    public interface Watch extends AutoCloseable {
        @Override
        void close();
    }

    private static final Logger LOG = LoggerFactory.getLogger(MoldWatch.class);

    private final Map<String, Set<Listener>> listeners = new ConcurrentHashMap<>();
    private final ScheduledExecutorService thread = Executors.newSingleThreadScheduledExecutor(task -> {
        Thread daemon = new Thread(task, "mold-watch");
        daemon.setDaemon(true);
        return daemon;
    });
    private final MoldTable molds;

    MoldWatch(MoldTable molds, WaitSettings settings) {
        this.molds = molds;
        long pollMs = settings.poll().toMillis();
        thread.scheduleWithFixedDelay(this::lookAtAll, pollMs, pollMs, TimeUnit.MILLISECONDS);
    }

    /**
     * Calls back with every new version of a mold from the given one on, in order, possibly leaving some out; calls with
     * null once it is deleted. The listener must be quick.
     */
    public Watch watch(String id, long afterVersion, Consumer<MoldRow> onChange) {
        Listener listener = new Listener(afterVersion, onChange);
        listeners.computeIfAbsent(id, key -> ConcurrentHashMap.newKeySet()).add(listener);
        thread.execute(() -> look(List.of(id)));
        return () -> listeners.computeIfPresent(id, (key, all) -> {
            all.remove(listener);
            return all.isEmpty() ? null : all;
        });
    }

    /** The mold as soon as it is finished, or as it is when the time is over; null if it was deleted meanwhile. */
    public CompletableFuture<MoldRow> untilFinished(MoldRow mold, Duration atMost) {
        CompletableFuture<MoldRow> finished = new CompletableFuture<>();
        if (mold.status().isFinal() || atMost.isZero()) {
            finished.complete(mold);
            return finished;
        }
        Watch watch = watch(mold.id(), mold.version(), row -> {
            if (row == null || row.status().isFinal()) {
                finished.complete(row);
            }
        });
        thread.schedule(() -> finished.complete(molds.find(mold.id()).orElse(null)),
                atMost.toMillis(), TimeUnit.MILLISECONDS);
        return finished.whenComplete((row, error) -> watch.close());
    }

    @EventListener
    void changed(MoldChanged change) {
        if (listeners.containsKey(change.id()) && !thread.isShutdown()) {
            thread.execute(() -> look(List.of(change.id())));
        }
    }

    private void lookAtAll() {
        try {
            look(List.copyOf(listeners.keySet()));
        } catch (RuntimeException e) {
            LOG.warn("cannot look for changed molds, will try again", e);
        }
    }

    private void look(List<String> ids) {
        Map<String, MoldRow> rows = new ConcurrentHashMap<>();
        molds.findAll(ids).forEach(row -> rows.put(row.id(), row));
        for (String id : ids) {
            listeners.getOrDefault(id, Set.of()).forEach(listener -> listener.show(rows.get(id)));
        }
    }

    @Override
    public void destroy() {
        thread.shutdownNow();
    }

    /** Used by the watch's one thread only. */
    private static final class Listener {

        private final Consumer<MoldRow> onChange;
        private long seen;

        Listener(long seen, Consumer<MoldRow> onChange) {
            this.seen = seen;
            this.onChange = onChange;
        }

        void show(MoldRow row) {
            if (row == null || row.version() > seen) {
                seen = row == null ? Long.MAX_VALUE : row.version();
                onChange.accept(row);
            }
        }
    }
}
