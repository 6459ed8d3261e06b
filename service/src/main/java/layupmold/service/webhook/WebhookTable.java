package layupmold.service.webhook;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import layupmold.service.sql.SqlTime;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** The webhooks in the database. */
@Repository
public class WebhookTable {

    private static final String COUNTED = """
            select w.*,
                (select count(*) from delivery d where d.webhook_id = w.id and d.status = 'WAITING') as waiting,
                (select count(*) from delivery d where d.webhook_id = w.id and d.status = 'DEAD') as dead
            from webhook w\s""";

    private final JdbcClient jdbc;

    WebhookTable(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    void insert(WebhookRow webhook) {
        jdbc.sql("""
                insert into webhook (id, owner, url, types, secret, enabled, created_at)
                values (:id, :owner, :url, :types, :secret, true, :now)""")
                .param("id", webhook.id()).param("owner", webhook.owner()).param("url", webhook.url())
                .param("types", String.join(" ", webhook.types())).param("secret", webhook.secret())
                .param("now", SqlTime.at(webhook.createdAt())).update();
    }

    public List<WebhookRow> of(String owner) {
        return jdbc.sql(COUNTED + "where w.owner = :owner order by w.created_at, w.id").param("owner", owner)
                .query(WebhookTable::row).list();
    }

    public Optional<WebhookRow> find(String id, String owner) {
        return jdbc.sql(COUNTED + "where w.owner = :owner and w.id = :id").param("owner", owner).param("id", id)
                .query(WebhookTable::row).optional();
    }

    Optional<WebhookRow> find(String id) {
        return jdbc.sql(COUNTED + "where w.id = :id").param("id", id).query(WebhookTable::row).optional();
    }

    void disable(String id) {
        jdbc.sql("update webhook set enabled = false where id = :id").param("id", id).update();
    }

    public boolean delete(String id, String owner) {
        return 1 == jdbc.sql("delete from webhook where id = :id and owner = :owner")
                .param("id", id).param("owner", owner).update();
    }

    private static WebhookRow row(ResultSet row, int number) throws SQLException {
        String types = row.getString("types");
        return new WebhookRow(row.getString("id"), row.getString("owner"), row.getString("url"),
                types.isEmpty() ? List.of() : Arrays.asList(types.split(" ")), row.getString("secret"),
                row.getBoolean("enabled"), SqlTime.read(row, "created_at"),
                row.getInt("waiting"), row.getInt("dead"));
    }
}
