package layupmold.service.jobs;

import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.ScheduledExecutorService;
import java.util.concurrent.TimeUnit;
import layupmold.service.settings.JobSettings;
import org.springframework.beans.factory.DisposableBean;
import org.springframework.stereotype.Component;

/** Watches that no attempt takes longer than it may. */
@Component
class Deadlines implements DisposableBean {

    /** A running watch; closing it ends it. */
    interface Deadline extends AutoCloseable {
        @Override
        void close();
    }

    private final ScheduledExecutorService clock = Executors.newSingleThreadScheduledExecutor(task -> {
        Thread thread = new Thread(task, "deadlines");
        thread.setDaemon(true);
        return thread;
    });
    private final long limitMs;

    Deadlines(JobSettings settings) {
        limitMs = settings.timeLimit().toMillis();
    }

    Deadline start(Runnable whenTimeIsUp) {
        Future<?> alarm = clock.schedule(whenTimeIsUp, limitMs, TimeUnit.MILLISECONDS);
        return () -> alarm.cancel(false);
    }

    @Override
    public void destroy() {
        clock.shutdownNow();
    }
}
