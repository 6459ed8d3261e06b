package layupmold.service.access;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import layupmold.api.access.AccessScope;
import layupmold.service.sql.SqlTime;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** The keys in the database. */
@Repository
class ApiKeyTable {

    private final JdbcClient jdbc;

    ApiKeyTable(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    void insert(ApiKey key) {
        jdbc.sql("""
                insert into api_key (id, secret_hash, owner, name, scopes, requests_per_minute, max_part_bytes,
                    created_at, expires_at)
                values (:id, :hash, :owner, :name, :scopes, :requests, :bytes, :created, :expires)""")
                .param("id", key.id()).param("hash", key.secretHash()).param("owner", key.owner())
                .param("name", key.name()).param("scopes", words(key.scopes()))
                .param("requests", key.requestsPerMinute()).param("bytes", key.maxPartBytes())
                .param("created", SqlTime.at(key.createdAt())).param("expires", SqlTime.at(key.expiresAt())).update();
    }

    Optional<ApiKey> find(String id) {
        return jdbc.sql("select * from api_key where id = :id").param("id", id).query(ApiKeyTable::row).optional();
    }

    List<ApiKey> all() {
        return jdbc.sql("select * from api_key order by created_at, id").query(ApiKeyTable::row).list();
    }

    boolean delete(String id) {
        return 1 == jdbc.sql("delete from api_key where id = :id").param("id", id).update();
    }

    private static ApiKey row(ResultSet row, int number) throws SQLException {
        return new ApiKey(row.getString("id"), row.getString("secret_hash"), row.getString("owner"),
                row.getString("name"), scopes(row.getString("scopes")),
                row.getObject("requests_per_minute", Integer.class), row.getObject("max_part_bytes", Long.class),
                SqlTime.read(row, "created_at"), SqlTime.read(row, "expires_at"));
    }

    private static String words(Set<AccessScope> scopes) {
        return scopes.stream().map(Enum::name).sorted().collect(Collectors.joining(" "));
    }

    private static Set<AccessScope> scopes(String words) {
        return Arrays.stream(words.split(" ")).map(AccessScope::valueOf)
                .collect(Collectors.toCollection(() -> EnumSet.noneOf(AccessScope.class)));
    }
}
