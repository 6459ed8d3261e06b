package layupmold.service.jobs;

import java.time.Instant;
import java.util.Optional;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Remembers which request an idempotency key stood for and what came of it. */
@Repository
public class KeyTable {

    /**
     * @param fingerprint hash of the request's payload
     * @param result what came of it, for instance the identifier of a mold
     */
    public record Remembered(String fingerprint, String result) {
    }

    private final JdbcClient jdbc;

    KeyTable(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    public Optional<Remembered> find(String owner, String operation, String key, Instant now) {
        return jdbc.sql("""
                select fingerprint, result from idempotency_key
                where owner = :owner and operation = :operation and idempotency_key = :key and expires_at > :now""")
                .param("owner", owner).param("operation", operation).param("key", key).param("now", MoldTable.at(now))
                .query(Remembered.class).optional();
    }

    /**
     * @throws org.springframework.dao.DuplicateKeyException if another request has just used the key
     */
    public void remember(String owner, String operation, String key, Remembered what, Instant now, Instant expiry) {
        jdbc.sql("""
                delete from idempotency_key
                where owner = :owner and operation = :operation and idempotency_key = :key and expires_at <= :now""")
                .param("owner", owner).param("operation", operation).param("key", key).param("now", MoldTable.at(now))
                .update();
        jdbc.sql("""
                insert into idempotency_key (owner, operation, idempotency_key, fingerprint, result, expires_at)
                values (:owner, :operation, :key, :fingerprint, :result, :expiry)""")
                .param("owner", owner).param("operation", operation).param("key", key)
                .param("fingerprint", what.fingerprint()).param("result", what.result())
                .param("expiry", MoldTable.at(expiry)).update();
    }

    int deleteExpired(Instant now) {
        return jdbc.sql("delete from idempotency_key where expires_at <= :now").param("now", MoldTable.at(now)).update();
    }
}
