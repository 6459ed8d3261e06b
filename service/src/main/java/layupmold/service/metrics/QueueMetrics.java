package layupmold.service.metrics;

import io.micrometer.core.instrument.Gauge;
import io.micrometer.core.instrument.MeterRegistry;
import io.micrometer.core.instrument.binder.MeterBinder;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import layupmold.api.mold.MoldStatus;
import layupmold.service.jobs.Lane;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/**
 * Tells how many molds wait and run: {@code layupmold.queue}, by lane and state. Every node tells the same, since they
 * share the queue.
 */
@Component
class QueueMetrics implements MeterBinder {

    private static final List<MoldStatus> STATES = List.of(MoldStatus.QUEUED, MoldStatus.RUNNING);
    /** All gauges of one scrape are answered from one query. */
    private static final long FRESH_NANOS = 1_000_000_000L;

    private final JdbcClient jdbc;
    private Map<String, Integer> counts = Map.of();
    private long countedAt = System.nanoTime() - FRESH_NANOS;

    QueueMetrics(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    @Override
    public void bindTo(MeterRegistry registry) {
        for (Lane lane : Lane.values()) {
            for (MoldStatus state : STATES) {
                Gauge.builder("layupmold.queue", () -> count(lane + " " + state))
                        .description("Molds that wait or run")
                        .tag("lane", lane.name().toLowerCase(Locale.ROOT))
                        .tag("state", state.name().toLowerCase(Locale.ROOT))
                        .register(registry);
            }
        }
    }

    private synchronized int count(String laneAndState) {
        if (System.nanoTime() - countedAt >= FRESH_NANOS) {
            counts = jdbc.sql("select lane, status, count(*) as molds from mold where status in ('QUEUED', 'RUNNING') "
                            + "group by lane, status")
                    .query((row, number) -> Map.entry(row.getString("lane") + " " + row.getString("status"),
                            row.getInt("molds")))
                    .list().stream().collect(Collectors.toMap(Map.Entry::getKey, Map.Entry::getValue));
            countedAt = System.nanoTime();
        }
        return counts.getOrDefault(laneAndState, 0);
    }
}
