package layupmold.service.events;

import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.ThreadFactory;
import java.util.concurrent.TimeUnit;
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
    private final MoldWatch watch;
    private volatile boolean running;

    EventStreams(MoldWatch watch) {
        this.watch = watch;
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
        EventStream stream = new EventStream(writers);
        open.add(stream);
        MoldWatch.Watch listening = watch.watch(mold, afterVersion, stream::show);
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
