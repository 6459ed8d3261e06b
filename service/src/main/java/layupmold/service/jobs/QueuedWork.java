package layupmold.service.jobs;

import java.time.Duration;
import java.util.Optional;

/** What a queue's entries have done. A run may be repeated at any time, on any node; it must bear that. */
public interface QueuedWork {

    /** Names in the queues' tables, so they must stay. */
    enum Kind {
        MAKE_MOLD("make-mold"), SORT_BATCH("sort-batch");

        private final String task;

        Kind(String task) {
            this.task = task;
        }

        String task() {
            return task;
        }
    }

    Kind kind();

    /**
     * @param id of the mold or batch
     * @return empty if the entry is dealt with, else how long to wait before another look
     * @throws RuntimeException if it should be tried again
     */
    Optional<Duration> run(String id);
}
