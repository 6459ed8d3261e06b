package layupmold.service.jobs;

import java.util.EnumMap;
import java.util.Map;
import javax.sql.DataSource;
import layupmold.service.settings.JobSettings;
import layupmold.service.store.Blob;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.context.SmartLifecycle;
import org.springframework.stereotype.Component;

/**
 * The queues of this node, one a {@link Lane}. They start with the application; on a stop they take nothing new, let
 * running jobs finish for a while and hand back the rest.
 */
@Component
public class Lanes implements SmartLifecycle {

    private final Map<Lane, LaneQueue> queues = new EnumMap<>(Lane.class);
    private final JobSettings settings;
    private final Stopping stopping;
    private volatile boolean running;

    Lanes(DataSource database, JobSettings settings, Stopping stopping, ObjectProvider<QueuedWork> workers) {
        this.settings = settings;
        this.stopping = stopping;
        queues.put(Lane.LIGHT, new LaneQueue("light_lane", settings.lightThreads(), database, settings, workers));
        queues.put(Lane.HEAVY, new LaneQueue("heavy_lane", settings.heavyThreads(), database, settings, workers));
    }

    /** The lane for a part of this size. */
    Lane laneFor(Blob part) {
        return part.bytes() >= settings.heavyFrom().toBytes() ? Lane.HEAVY : Lane.LIGHT;
    }

    /** Queues work, in the caller's transaction. */
    public void enqueue(Lane lane, QueuedWork.Kind kind, String id) {
        queues.get(lane).enqueue(kind, id);
    }

    /** Has this node look at a queue now; to be called once the transaction is committed. */
    public void wake(Lane lane) {
        if (running) {
            queues.get(lane).wake();
        }
    }

    @Override
    public void start() {
        if (settings.work()) {
            queues.values().forEach(LaneQueue::start);
        }
        running = settings.work();
    }

    @Override
    public void stop() {
        if (!running) {
            return;
        }
        running = false;
        queues.values().forEach(LaneQueue::pause);
        long end = System.nanoTime() + settings.stopWithin().toNanos();
        while (System.nanoTime() < end && queues.values().stream().anyMatch(LaneQueue::isBusy)) {
            pause();
        }
        stopping.handBackFromNowOn();
        queues.values().forEach(LaneQueue::stop);
    }

    private static void pause() {
        try {
            Thread.sleep(50);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    @Override
    public boolean isRunning() {
        return running;
    }

    /** Stops before the web server does, so that waiting clients still get their answers. */
    @Override
    public int getPhase() {
        return Integer.MAX_VALUE;
    }
}
