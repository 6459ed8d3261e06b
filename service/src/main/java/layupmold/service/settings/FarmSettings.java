package layupmold.service.settings;

import java.time.Duration;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * The print queue.
 *
 * @param lease how long an agent may be silent before its plate goes back into the queue
 * @param lookForSilentEvery how often this node looks for silent agents
 * @param maxTries how often a print may fail before it is given up
 * @param mostOnPlate most molds on one plate
 * @param lookedAt most prints looked at for one plate
 */
@ConfigurationProperties("layupmold.farm")
public record FarmSettings(
        @DefaultValue("10m") Duration lease,
        @DefaultValue("15s") Duration lookForSilentEvery,
        @DefaultValue("3") int maxTries,
        @DefaultValue("24") int mostOnPlate,
        @DefaultValue("100") int lookedAt) {
}
