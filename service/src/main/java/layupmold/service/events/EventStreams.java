package layupmold.service.events;

import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ThreadFactory;
import java.util.concurrent.TimeUnit;
import java.util.function.Function;
import layupmold.service.batch.BatchRow;
import org.springframework.context.SmartLifecycle;
import org.springframework.stereotype.Component;

/** The open event streams. Their writing has threads of its own, so that a slow client holds up nobody else. */
@Component
public class EventStreams implements SmartLifecycle {

    private static final int HEARTBEAT_SECONDS = 15;
    private static final int WRITERS = 16;

    private final Set<EventStream> open = ConcurrentHashMap.newKeySet();
    private final ExecutorService writers = Executors.newFixedThreadPool(WRITERS, daemon("event-writer"));
    private final ScheduledExecutorService heart = Executors.newSingleThreadScheduledExecutor(daemon("event-heart"));
    private final MoldWatch molds;
    private final BatchWatch batches;
    private volatile boolean running;

    EventStreams(MoldWatch molds, BatchWatch batches) {
        this.molds = molds;
        this.batches = batches;
    }

    private static ThreadFactory daemon(String name) {
        return task -> {
            Thread thread = new Thread(task, name);
            thread.setDaemon(true);
            return thread;
        };
    }

    /** Streams a mold's changes after the given version, and its end. */
    public EventStream open(String mold, long afterVersion) {
        return open(stream -> molds.watch(mold, afterVersion,
                row -> stream.show(row == null ? null : StreamEvent.of(row))));
    }

    /** Streams how a suit stands, unless that is what the client saw last, its changes, and its end. */
    public EventStream open(BatchRow suit, String lastSeen) {
        return open(stream -> batches.watch(suit, now -> {
            StreamEvent event = now == null ? null : StreamEvent.of(now);
            if (event == null || event.last() || !event.id().equals(lastSeen)) {
                stream.show(event);
            }
        }));
    }

    private EventStream open(Function<EventStream, MoldWatch.Watch> listen) {
        EventStream stream = new EventStream(writers);
        open.add(stream);
        MoldWatch.Watch listening = listen.apply(stream);
        stream.onClose(() -> {
            listening.close();
            open.remove(stream);
        });
        return stream;
    }

    @Override
    public void start() {
        heart.scheduleWithFixedDelay(() -> open.forEach(EventStream::beat),
                HEARTBEAT_SECONDS, HEARTBEAT_SECONDS, TimeUnit.SECONDS);
        running = true;
    }

    /** Ends the streams, so that the web server can stop; clients come back to another node by themselves. */
    @Override
    public void stop() {
        running = false;
        open.forEach(EventStream::end);
        heart.shutdownNow();
        writers.shutdown();
    }

    @Override
    public boolean isRunning() {
        return running;
    }

    /** After the jobs, before the web server. */
    @Override
    public int getPhase() {
        return Integer.MAX_VALUE - 1;
    }
}
