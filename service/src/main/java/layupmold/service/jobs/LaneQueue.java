package layupmold.service.jobs;

import com.github.kagkarlsson.scheduler.Scheduler;
import com.github.kagkarlsson.scheduler.SchedulerBuilder;
import com.github.kagkarlsson.scheduler.SchedulerClient;
import com.github.kagkarlsson.scheduler.SchedulerName;
import com.github.kagkarlsson.scheduler.logging.LogLevel;
import com.github.kagkarlsson.scheduler.task.ExecutionComplete;
import com.github.kagkarlsson.scheduler.task.ExecutionOperations;
import com.github.kagkarlsson.scheduler.task.helper.OneTimeTask;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import java.time.Duration;
import java.time.Instant;
import java.util.UUID;
import javax.sql.DataSource;
import layupmold.service.settings.JobSettings;
import org.springframework.jdbc.datasource.TransactionAwareDataSourceProxy;

/** One lane's queue in the database. A job whose node died is run again by another node. */
final class LaneQueue {

    private static final int MISSED_HEARTBEATS = 4;
    /** Time for jobs that were told to stop to come to the end of their stage. */
    private static final Duration UNTIL_INTERRUPT = Duration.ofSeconds(10);

    private final OneTimeTask<Void> task;
    private final SchedulerClient client;
    private final Scheduler scheduler;
    private final Duration retryAfter;

    LaneQueue(String table, int threads, DataSource database, JobSettings settings, MoldWorker worker) {
        retryAfter = settings.retryAfter();
        task = Tasks.oneTime("make-mold")
                .onFailure(this::again)
                .execute((instance, context) -> worker.run(instance.getId()));
        client = SchedulerClient.Builder.create(new TransactionAwareDataSourceProxy(database), task)
                .tableName(table).build();
        SchedulerBuilder builder = Scheduler.create(database, task)
                .tableName(table)
                .schedulerName(new SchedulerName.Fixed(table + "-" + UUID.randomUUID()))
                .threads(threads)
                .enableImmediateExecution()
                .pollingInterval(settings.poll())
                .heartbeatInterval(settings.heartbeat())
                .missedHeartbeatsLimit(MISSED_HEARTBEATS)
                .failureLogging(LogLevel.WARN, false)
                .shutdownMaxWait(UNTIL_INTERRUPT);
        scheduler = builder.build();
    }

    private void again(ExecutionComplete failed, ExecutionOperations<Void> operations) {
        boolean handedBack = failed.getCause().filter(HandBack.class::isInstance).isPresent();
        operations.reschedule(failed, handedBack ? Instant.now() : Instant.now().plus(retryAfter));
    }

    void enqueue(String id) {
        client.scheduleIfNotExists(task.instance(id), Instant.now());
    }

    void wake() {
        scheduler.triggerCheckForDueExecutions();
    }

    void start() {
        scheduler.start();
    }

    void pause() {
        scheduler.pause();
    }

    boolean isBusy() {
        return !scheduler.getCurrentlyExecuting().isEmpty();
    }

    void stop() {
        scheduler.stop();
    }
}
