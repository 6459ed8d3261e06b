package layupmold.service.jobs;

import java.time.Duration;
import java.util.concurrent.CancellationException;
import java.util.function.BooleanSupplier;
import layupmold.geometry.Progress;
import org.springframework.context.ApplicationEventPublisher;

/**
 * Writes a job's progress to the database, and learns there that it should stop. From the first stage until the mold is
 * computed it can be stopped from outside as well, in the midst of a stage.
 */
final class JobProgress implements Progress {

    private final MoldTable molds;
    private final ApplicationEventPublisher events;
    private final MoldRow mold;
    private final BooleanSupplier handingBack;
    private final Interruptible work = new Interruptible();
    private boolean computed;
    private volatile String stage = "start";
    private long stageBegan = System.nanoTime();

    /** To be made by the thread that does the work. */
    JobProgress(MoldTable molds, ApplicationEventPublisher events, MoldRow mold, BooleanSupplier handingBack) {
        this.molds = molds;
        this.events = events;
        this.mold = mold;
        this.handingBack = handingBack;
    }

    @Override
    public void at(String newStage, double fraction) {
        work.pause();
        if (handingBack.getAsBoolean()) {
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
        if (!computed) {
            work.compute();
        }
    }

    /** To be called by the worker when the computing is over, however it ended. */
    void computed() {
        computed = true;
        work.pause();
    }

    /** Stops the work, unless its result is being stored already. */
    void stop() {
        work.stop();
    }

    /** Whether the database still has this attempt as the one under way. */
    boolean isWanted() {
        return molds.isRunning(mold.id(), mold.attempt());
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
