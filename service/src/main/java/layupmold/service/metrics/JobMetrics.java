package layupmold.service.metrics;

import io.micrometer.core.instrument.MeterRegistry;
import io.micrometer.core.instrument.Timer;
import java.util.Locale;
import layupmold.service.jobs.MoldEnded;
import layupmold.service.jobs.StageEnded;
import org.springframework.context.event.EventListener;
import org.springframework.stereotype.Component;

/**
 * Counts what this node's workers do: {@code layupmold.stage} (time, by stage), {@code layupmold.mold} (time, by lane
 * and status) and {@code layupmold.mold.failures} (by code).
 */
@Component
class JobMetrics {

    private final MeterRegistry registry;

    JobMetrics(MeterRegistry registry) {
        this.registry = registry;
    }

    @EventListener
    void ended(StageEnded stage) {
        Timer.builder("layupmold.stage").description("Time in each stage of work on a mold")
                .tag("stage", stage.stage()).register(registry).record(stage.took());
    }

    @EventListener
    void ended(MoldEnded mold) {
        if (mold.took() != null) {
            Timer.builder("layupmold.mold").description("Time of the last try at a mold").tag("lane", word(mold.lane()))
                    .tag("status", word(mold.status())).register(registry).record(mold.took());
        }
        if (!mold.code().equals("none")) {
            registry.counter("layupmold.mold.failures", "status", word(mold.status()), "code", mold.code()).increment();
        }
    }

    private static String word(Enum<?> value) {
        return value.name().toLowerCase(Locale.ROOT);
    }
}
