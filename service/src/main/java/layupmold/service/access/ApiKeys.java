package layupmold.service.access;

import java.time.Clock;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import layupmold.api.access.NewKey;
import layupmold.service.settings.AccessSettings;
import org.springframework.stereotype.Service;

/** Makes, knows and withdraws keys. */
@Service
public class ApiKeys {

    /**
     * A key just made.
     *
     * @param token what its owner sends; kept nowhere
     */
    public record Made(ApiKey key, String token) {
    }

    private final ApiKeyTable table;
    private final AccessSettings settings;
    private final Clock clock;

    ApiKeys(ApiKeyTable table, AccessSettings settings, Clock clock) {
        this.table = table;
        this.settings = settings;
        this.clock = clock;
    }

    /** Makes a key, in the caller's transaction. */
    public Made make(NewKey wanted) {
        KeySecret secret = KeySecret.random();
        ApiKey key = new ApiKey(secret.id(), secret.hash(), wanted.owner(), wanted.name(),
                EnumSet.copyOf(wanted.scopes()), wanted.requestsPerMinute(), wanted.maxPartBytes(), clock.instant(),
                wanted.expiresAt());
        table.insert(key);
        return new Made(table.find(key.id()).orElseThrow(), secret.token());
    }

    public Optional<ApiKey> find(String id) {
        return table.find(id);
    }

    /** Oldest first. */
    public List<ApiKey> all() {
        return table.all();
    }

    /** @return false if there was none */
    public boolean withdraw(String id) {
        return table.delete(id);
    }

    /** Who the token is of, if it is a key of ours that still holds. */
    Optional<CallerAuthentication> recognise(String token) {
        return KeySecret.parse(token).flatMap(secret -> table.find(secret.id())
                .filter(key -> secret.matches(key.secretHash()) && key.isValidAt(clock.instant()))
                .map(this::authentication));
    }

    private CallerAuthentication authentication(ApiKey key) {
        int requests = key.requestsPerMinute() == null ? settings.requestsPerMinute() : key.requestsPerMinute();
        return new CallerAuthentication(new Caller("key:" + key.id(), key.owner(), requests, key.maxPartBytes()),
                key.scopes().stream().map(Scopes::authority).toList());
    }
}
