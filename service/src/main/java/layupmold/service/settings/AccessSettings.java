package layupmold.service.settings;

import java.nio.file.Path;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * Who may use the service. Tokens of an OAuth 2 server are taken as well once one is configured by
 * {@code spring.security.oauth2.resourceserver.jwt}.
 *
 * @param apiKeys whether callers must show a key of ours
 * @param open lets a service without access control be reached from other machines
 * @param firstKeyFile where the first key is written, once, when there is none with the scope admin
 * @param requestsPerMinute most requests a minute of one key or token holder, counted by each node for itself
 */
@ConfigurationProperties("layupmold.access")
public record AccessSettings(
        @DefaultValue("false") boolean apiKeys,
        @DefaultValue("false") boolean open,
        @DefaultValue("data/first-admin-key") Path firstKeyFile,
        @DefaultValue("600") int requestsPerMinute) {
}
