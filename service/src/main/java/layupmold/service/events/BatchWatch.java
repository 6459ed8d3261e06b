package layupmold.service.events;

import java.time.Duration;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import layupmold.api.batch.BatchResource;
import layupmold.service.batch.BatchRow;
import layupmold.service.batch.BatchTable;
import layupmold.service.batch.BatchView;
import layupmold.service.settings.WaitSettings;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.stereotype.Component;

/**
 * Tells listeners of changes to suits, whichever node makes their molds: each suit that anyone follows is looked at once
 * a poll. Waiting costs no thread.
 */
@Component
public class BatchWatch implements DisposableBean {

    private static final Logger LOG = LoggerFactory.getLogger(BatchWatch.class);

    private record Followed(String id, String owner) {
    }

    private final Map<Followed, Set<Listener>> listeners = new ConcurrentHashMap<>();
    private final ScheduledExecutorService thread = Executors.newSingleThreadScheduledExecutor(task -> {
        Thread daemon = new Thread(task, "batch-watch");
        daemon.setDaemon(true);
        return daemon;
    });
    private final BatchTable batches;
    private final BatchView view;

    BatchWatch(BatchTable batches, BatchView view, WaitSettings settings) {
        this.batches = batches;
        this.view = view;
        long pollMs = settings.poll().toMillis();
        thread.scheduleWithFixedDelay(() -> listeners.keySet().forEach(this::look), pollMs, pollMs, TimeUnit.MILLISECONDS);
    }

    /**
     * Calls back with how the suit stands, soon, and whenever that has changed, possibly leaving states out; calls with
     * null once it is deleted. The listener must be quick.
     */
    public MoldWatch.Watch watch(BatchRow batch, Consumer<BatchResource> onChange) {
        Followed suit = new Followed(batch.id(), batch.owner());
        Listener listener = new Listener(onChange);
        listeners.computeIfAbsent(suit, key -> ConcurrentHashMap.newKeySet()).add(listener);
        thread.execute(() -> look(suit));
        return () -> listeners.computeIfPresent(suit, (key, all) -> {
            all.remove(listener);
            return all.isEmpty() ? null : all;
        });
    }

    /** The suit as soon as it is finished, or as it is when the time is over; null if it was deleted meanwhile. */
    public CompletableFuture<BatchResource> untilFinished(BatchRow batch, Duration atMost) {
        CompletableFuture<BatchResource> finished = new CompletableFuture<>();
        BatchResource now = view.resource(batch);
        if (now.status().isFinal() || atMost.isZero()) {
            finished.complete(now);
            return finished;
        }
        MoldWatch.Watch watch = watch(batch, suit -> {
            if (suit == null || suit.status().isFinal()) {
                finished.complete(suit);
            }
        });
        thread.schedule(() -> complete(finished, batch), atMost.toMillis(), TimeUnit.MILLISECONDS);
        return finished.whenComplete((suit, error) -> watch.close());
    }

    private void complete(CompletableFuture<BatchResource> waiting, BatchRow batch) {
        try {
            waiting.complete(read(batch.id(), batch.owner()));
        } catch (RuntimeException e) {
            waiting.completeExceptionally(e);
        }
    }

    private void look(Followed suit) {
        try {
            BatchResource now = read(suit.id(), suit.owner());
            listeners.getOrDefault(suit, Set.of()).forEach(listener -> listener.show(now));
        } catch (RuntimeException e) {
            LOG.warn("cannot look at suit {}, will try again", suit.id(), e);
        }
    }

    private BatchResource read(String id, String owner) {
        return batches.find(id, owner).map(view::resource).orElse(null);
    }

    @Override
    public void destroy() {
        thread.shutdownNow();
    }

    /** Used by the watch's one thread only. */
    private static final class Listener {

        private final Consumer<BatchResource> onChange;
        private BatchResource seen;
        private boolean over;

        Listener(Consumer<BatchResource> onChange) {
            this.onChange = onChange;
        }

        void show(BatchResource suit) {
            if (!over && (suit == null || !suit.equals(seen))) {
                seen = suit;
                over = suit == null;
                onChange.accept(suit);
            }
        }
    }
}
