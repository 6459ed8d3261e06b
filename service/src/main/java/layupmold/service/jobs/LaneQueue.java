package layupmold.service.jobs;

import com.github.kagkarlsson.scheduler.Scheduler;
import com.github.kagkarlsson.scheduler.SchedulerBuilder;
import com.github.kagkarlsson.scheduler.SchedulerClient;
import com.github.kagkarlsson.scheduler.SchedulerName;
import com.github.kagkarlsson.scheduler.logging.LogLevel;
import com.github.kagkarlsson.scheduler.task.ExecutionComplete;
import com.github.kagkarlsson.scheduler.task.ExecutionOperations;
import com.github.kagkarlsson.scheduler.task.CompletionHandler;
import com.github.kagkarlsson.scheduler.task.helper.CustomTask;
import com.github.kagkarlsson.scheduler.task.Task;
import com.github.kagkarlsson.scheduler.task.helper.Tasks;
import java.time.Duration;
import java.time.Instant;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.UUID;
import javax.sql.DataSource;
import layupmold.service.settings.JobSettings;
import org.springframework.beans.factory.ObjectProvider;
import org.springframework.jdbc.datasource.TransactionAwareDataSourceProxy;

/** One lane's queue in the database. A job whose node died is run again by another node. */
final class LaneQueue {

    private static final int MISSED_HEARTBEATS = 4;
    /** Time for jobs that were told to stop to come to the end of their stage. */
    private static final Duration UNTIL_INTERRUPT = Duration.ofSeconds(10);

    private final Map<QueuedWork.Kind, CustomTask<Void>> tasks = new EnumMap<>(QueuedWork.Kind.class);
    private final SchedulerClient client;
    private final Scheduler scheduler;
    private final Duration retryAfter;
    private final LaneThreads threads;

    /** @param workers asked for when work comes, since they may need the queues themselves */
    LaneQueue(String table, int molds, DataSource database, JobSettings settings, ObjectProvider<QueuedWork> workers) {
        retryAfter = settings.retryAfter();
        threads = new LaneThreads(table, molds);
        for (QueuedWork.Kind kind : QueuedWork.Kind.values()) {
            tasks.put(kind, Tasks.custom(kind.task(), Void.class).onFailure(this::again).onDeadExecutionRevive()
                    .execute((instance, context) -> run(worker(workers, kind), instance.getId())));
        }
        List<Task<?>> all = List.copyOf(tasks.values());
        client = SchedulerClient.Builder.create(new TransactionAwareDataSourceProxy(database), all)
                .tableName(table).build();
        SchedulerBuilder builder = Scheduler.create(database, all)
                .tableName(table)
                .schedulerName(new SchedulerName.Fixed(table + "-" + UUID.randomUUID()))
                .threads(molds)
                .enableImmediateExecution()
                .pollingInterval(settings.poll())
                .heartbeatInterval(settings.heartbeat())
                .missedHeartbeatsLimit(MISSED_HEARTBEATS)
                .failureLogging(LogLevel.WARN, false)
                .shutdownMaxWait(UNTIL_INTERRUPT);
        scheduler = builder.build();
    }

    private static QueuedWork worker(ObjectProvider<QueuedWork> workers, QueuedWork.Kind kind) {
        return workers.stream().filter(worker -> worker.kind() == kind).findFirst().orElseThrow();
    }

    private CompletionHandler<Void> run(QueuedWork worker, String id) {
        Optional<Duration> lookAgain = threads.run(() -> worker.run(id));
        return lookAgain.isEmpty() ? new CompletionHandler.OnCompleteRemove<>()
                : (complete, operations) -> operations.reschedule(complete, Instant.now().plus(lookAgain.get()));
    }

    private void again(ExecutionComplete failed, ExecutionOperations<Void> operations) {
        boolean handedBack = failed.getCause().filter(HandBack.class::isInstance).isPresent();
        operations.reschedule(failed, handedBack ? Instant.now() : Instant.now().plus(retryAfter));
    }

    void enqueue(QueuedWork.Kind kind, String id) {
        client.scheduleIfNotExists(tasks.get(kind).instance(id), Instant.now());
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
