package layupmold.service.jobs;

import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.scheduling.annotation.Scheduled;
import org.springframework.stereotype.Component;

/**
 * Stops running jobs in the midst of a stage: all of them when their node stops, so that they go back into the queue, and
 * those whose molds nobody asks for any more, on whichever node they were cancelled.
 */
@Component
public class Stopping {

    private static final Logger LOG = LoggerFactory.getLogger(Stopping.class);

    private final Set<JobProgress> running = ConcurrentHashMap.newKeySet();
    private volatile boolean handingBack;

    void began(JobProgress job) {
        running.add(job);
        if (handingBack) {
            job.stop();
        }
    }

    void ended(JobProgress job) {
        running.remove(job);
    }

    /** How many jobs this node is at work on. */
    int running() {
        return running.size();
    }

    void handBackFromNowOn() {
        handingBack = true;
        running.forEach(JobProgress::stop);
    }

    boolean isHandingBack() {
        return handingBack;
    }

    @Scheduled(fixedDelayString = "${layupmold.jobs.poll:1s}")
    void stopUnwanted() {
        for (JobProgress job : running) {
            try {
                if (!job.isWanted()) {
                    job.stop();
                }
            } catch (RuntimeException e) {
                LOG.debug("cannot tell whether a mold is still wanted, will look again", e);
            }
        }
    }
}
