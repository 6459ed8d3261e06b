package layupmold.service.jobs;

import java.time.Duration;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;
import layupmold.geometry.Progress;
import org.springframework.context.ApplicationEventPublisher;

/** Writes a job's progress to the database, and learns there that it should stop. */
final class JobProgress implements Progress {

    private final MoldTable molds;
    private final ApplicationEventPublisher events;
    private final MoldRow mold;
    private final BooleanSupplier stopping;
    private volatile String stage = "start";
    private long stageBegan = System.nanoTime();

    JobProgress(MoldTable molds, ApplicationEventPublisher events, MoldRow mold, BooleanSupplier stopping) {
        this.molds = molds;
        this.events = events;
        this.mold = mold;
        this.stopping = stopping;
    }

    @Override
    public void at(String newStage, double fraction) {
        if (stopping.getAsBoolean()) {
            throw new HandBack();
        }
        if (!newStage.equals(stage)) {
            stageEnded();
            stage = newStage;
        }
        int percent = (int) Math.max(0, Math.min(99, Math.floor(100 * fraction)));
        if (!molds.progress(mold.id(), mold.attempt(), newStage, percent)) {
            throw new CancellationException("mold " + mold.id() + " is no longer asked for");
        }
        events.publishEvent(new MoldChanged(mold.id()));
    }

    /** Tells how long the stage took that is over now. */
    void stageEnded() {
        long now = System.nanoTime();
        events.publishEvent(new StageEnded(stage, Duration.ofNanos(now - stageBegan)));
        stageBegan = now;
    }

    String stage() {
        return stage;
    }
}
