package layupmold.service.http;

import java.time.Duration;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ScheduledFuture;
import java.util.concurrent.TimeUnit;
import layupmold.api.batch.BatchResource;
import layupmold.service.batch.BatchRow;
import layupmold.service.batch.BatchTable;
import layupmold.service.batch.BatchView;
import layupmold.service.settings.WaitSettings;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.stereotype.Component;

/** Waits for suits without a thread a request: looks again and again, whichever node makes the molds. */
@Component
class BatchWatch implements DisposableBean {

    private final ScheduledExecutorService thread = Executors.newSingleThreadScheduledExecutor(task -> {
        Thread daemon = new Thread(task, "batch-watch");
        daemon.setDaemon(true);
        return daemon;
    });
    private final BatchTable batches;
    private final BatchView view;
    private final long pollMs;

    BatchWatch(BatchTable batches, BatchView view, WaitSettings settings) {
        this.batches = batches;
        this.view = view;
        this.pollMs = settings.poll().toMillis();
    }

    /** The suit as soon as it is finished, or as it is when the time is over; null if it was deleted meanwhile. */
    CompletableFuture<BatchResource> untilFinished(BatchRow batch, Duration atMost) {
        BatchResource now = view.resource(batch);
        CompletableFuture<BatchResource> finished = new CompletableFuture<>();
        if (now.status().isFinal() || atMost.isZero()) {
            finished.complete(now);
            return finished;
        }
        long end = System.nanoTime() + atMost.toNanos();
        ScheduledFuture<?> looking = thread.scheduleWithFixedDelay(() -> look(batch, end, finished), pollMs, pollMs,
                TimeUnit.MILLISECONDS);
        return finished.whenComplete((resource, error) -> looking.cancel(false));
    }

    private void look(BatchRow batch, long end, CompletableFuture<BatchResource> finished) {
        try {
            BatchResource now = batches.find(batch.id(), batch.owner()).map(view::resource).orElse(null);
            if (now == null || now.status().isFinal() || System.nanoTime() - end > 0) {
                finished.complete(now);
            }
        } catch (RuntimeException e) {
            finished.completeExceptionally(e);
        }
    }

    @Override
    public void destroy() {
        thread.shutdownNow();
    }
}
