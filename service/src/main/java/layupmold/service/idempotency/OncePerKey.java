package layupmold.service.idempotency;

import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import java.util.function.Supplier;
import layupmold.service.idempotency.KeyTable.Remembered;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.settings.StoreSettings;
import layupmold.service.store.Sha256;
import org.springframework.dao.DuplicateKeyException;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;

/**
 * Does a POST's work once however often it is sent with the same key. The work and the key are committed together, so
 * this holds even if the process dies in between. Of two requests at the same time the later one gets the result of the
 * earlier.
 */
@Component
public class OncePerKey {

    private final KeyTable keys;
    private final TransactionTemplate transaction;
    private final StoreSettings settings;
    private final Clock clock;

    OncePerKey(KeyTable keys, TransactionTemplate transaction, StoreSettings settings, Clock clock) {
        this.keys = keys;
        this.transaction = transaction;
        this.settings = settings;
        this.clock = clock;
    }

    /**
     * Works in one transaction; without a key every time.
     *
     * @param payload what makes another request with the same key a different one, such as hashes of its body
     * @param work may run again after a rollback, so it touches the database only
     * @param name name of the result by which {@code recall} finds it, at most 200 characters
     * @param recall the result of an earlier request; if it is gone the work is done anew
     * @throws ProblemException if the key stood for another payload
     */
    public <T> T run(KeyedRequest request, List<String> payload, Supplier<T> work, Function<T, String> name,
            Function<String, Optional<T>> recall) {
        if (request.key() == null) {
            return transaction.execute(status -> work.get());
        }
        String fingerprint = Sha256.hex(String.join("\n", payload));
        try {
            return transaction.execute(status -> recallOrWork(request, fingerprint, work, name, recall));
        } catch (DuplicateKeyException usedByARequestAtTheSameTime) {
            return transaction.execute(status -> recallOrWork(request, fingerprint, work, name, recall));
        }
    }

    private <T> T recallOrWork(KeyedRequest request, String fingerprint, Supplier<T> work, Function<T, String> name,
            Function<String, Optional<T>> recall) {
        Instant now = clock.instant();
        Optional<Remembered> earlier = keys.find(request, now);
        if (earlier.isPresent()) {
            if (!earlier.get().fingerprint().equals(fingerprint)) {
                throw new ProblemException(ProblemKind.KEY_REUSED,
                        "The idempotency key was first used with another payload.");
            }
            Optional<T> result = recall.apply(earlier.get().result());
            if (result.isPresent()) {
                return result.get();
            }
            keys.forget(request);
        }
        T result = work.get();
        keys.remember(request, new Remembered(fingerprint, name.apply(result)), now, now.plus(settings.keepKeys()));
        return result;
    }
}
