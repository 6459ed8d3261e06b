package layupmold.service.settings;

import java.time.Duration;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * How long requests may wait for a result.
 *
 * @param forMold how long a request that asks for the mold itself waits when it does not say
 * @param most longest wait that is granted
 * @param poll how often waiting requests look for changes made by other nodes
 */
@ConfigurationProperties("layupmold.wait")
public record WaitSettings(
        @DefaultValue("2m") Duration forMold,
        @DefaultValue("5m") Duration most,
        @DefaultValue("250ms") Duration poll) {
}
