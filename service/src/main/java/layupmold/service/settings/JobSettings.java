package layupmold.service.settings;

import java.time.Duration;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;
import org.springframework.util.unit.DataSize;

/**
 * How molds are made.
 *
 * @param work whether this node makes molds, or only accepts and serves them
 * @param lightThreads molds made at once in the lane for small parts; 0 for one a core
 * @param heavyThreads molds made at once in the lane for large parts
 * @param heavyFrom size of a part file from which it takes the heavy lane
 * @param maxTries how often a part may be begun before it is given up
 * @param retryAfter pause before a failed job is tried again
 * @param timeLimit longest time one try may take
 * @param maxTriangles most triangles a part may have
 * @param maxQueued molds that may wait or run at once; more are turned away
 * @param heartbeat how often a node says that it is alive; after four missed ones its jobs are taken over
 * @param poll how often a node looks for jobs that another one accepted
 * @param stopWithin how long a stopping node lets running jobs finish before it hands them back
 */
@ConfigurationProperties("layupmold.jobs")
public record JobSettings(
        @DefaultValue("true") boolean work,
        @DefaultValue("0") int lightThreads,
        @DefaultValue("1") int heavyThreads,
        @DefaultValue("16MB") DataSize heavyFrom,
        @DefaultValue("3") int maxTries,
        @DefaultValue("5s") Duration retryAfter,
        @DefaultValue("5m") Duration timeLimit,
        @DefaultValue("4000000") int maxTriangles,
        @DefaultValue("10000") int maxQueued,
        @DefaultValue("3s") Duration heartbeat,
        @DefaultValue("1s") Duration poll,
        @DefaultValue("20s") Duration stopWithin) {

    /** So that three vertices a triangle can still be counted. */
    private static final int MOST_TRIANGLES = 500_000_000;

    public JobSettings {
        if (maxTriangles < 1 || maxTriangles > MOST_TRIANGLES) {
            throw new IllegalArgumentException("layupmold.jobs.max-triangles lies between 1 and " + MOST_TRIANGLES);
        }
        if (lightThreads == 0) {
            lightThreads = Runtime.getRuntime().availableProcessors();
        }
    }
}
