package layupmold.service.idempotency;

import java.time.Instant;
import java.util.Optional;
import layupmold.service.sql.SqlTime;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Remembers which request an idempotency key stood for and what came of it. */
@Repository
public class KeyTable {

    private static final String SAME =
            "owner = :owner and operation = :operation and idempotency_key = :key";

    /**
     * @param fingerprint hash of the request's payload
     * @param result name of what came of it
     */
    record Remembered(String fingerprint, String result) {
    }

    private final JdbcClient jdbc;

    KeyTable(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    Optional<Remembered> find(KeyedRequest request, Instant now) {
        return statement("select fingerprint, result from idempotency_key where " + SAME + " and expires_at > :now",
                request).param("now", SqlTime.at(now)).query(Remembered.class).optional();
    }

    void forget(KeyedRequest request) {
        statement("delete from idempotency_key where " + SAME, request).update();
    }

    /**
     * @throws org.springframework.dao.DuplicateKeyException if another request has just used the key
     */
    void remember(KeyedRequest request, Remembered what, Instant now, Instant expiry) {
        statement("delete from idempotency_key where " + SAME + " and expires_at <= :now", request)
                .param("now", SqlTime.at(now)).update();
        statement("""
                insert into idempotency_key (owner, operation, idempotency_key, fingerprint, result, expires_at)
                values (:owner, :operation, :key, :fingerprint, :result, :expiry)""", request)
                .param("fingerprint", what.fingerprint()).param("result", what.result())
                .param("expiry", SqlTime.at(expiry)).update();
    }

    /** Forgets the keys whose time is over. */
    public void deleteExpired(Instant now) {
        jdbc.sql("delete from idempotency_key where expires_at <= :now").param("now", SqlTime.at(now)).update();
    }

    private JdbcClient.StatementSpec statement(String sql, KeyedRequest request) {
        return jdbc.sql(sql).param("owner", request.owner()).param("operation", request.operation())
                .param("key", request.key());
    }
}
