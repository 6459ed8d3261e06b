package layupmold.service.settings;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * Where parts and molds are kept, and for how long.
 *
 * @param folder folder of the blobs
 * @param keepMolds how long a finished mold is kept; zero for ever
 * @param keepKeys how long an idempotency key is remembered
 * @param sweepEvery how often expired molds and unused blobs are removed
 * @param unusedAfter how long a blob that no mold refers to is kept, so that uploads under way are not lost
 */
@ConfigurationProperties("layupmold.store")
public record StoreSettings(
        @DefaultValue("data/blobs") Path folder,
        @DefaultValue("30d") Duration keepMolds,
        @DefaultValue("24h") Duration keepKeys,
        @DefaultValue("10m") Duration sweepEvery,
        @DefaultValue("1h") Duration unusedAfter) {

    /** When a mold finished now will be deleted, or null for never. */
    public Instant expiry(Instant finished) {
        return keepMolds.isZero() ? null : finished.plus(keepMolds);
    }
}
