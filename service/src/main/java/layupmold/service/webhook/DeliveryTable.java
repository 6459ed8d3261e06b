package layupmold.service.webhook;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import layupmold.api.webhook.DeliveryStatus;
import layupmold.service.sql.SqlTime;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** The events on their way. One node at a time holds a delivery; a node that dies loses it when its time is over. */
@Repository
public class DeliveryTable {

    private static final String WITH_EVENT =
            "select d.*, e.type, e.data, e.created_at from delivery d join event e on e.id = d.event_id ";

    private final JdbcClient jdbc;

    DeliveryTable(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    /** Deliveries that may be sent now: of one subject the earliest that waits, and no other. */
    List<DeliveryRow> due(Instant now, int limit) {
        return jdbc.sql(WITH_EVENT + """
                join webhook w on w.id = d.webhook_id
                where w.enabled = true and d.status = 'WAITING' and d.next_at <= :now
                    and (d.claimed_until is null or d.claimed_until <= :now)
                    and not exists (select 1 from delivery b where b.webhook_id = d.webhook_id and b.subject = d.subject
                        and b.status = 'WAITING' and b.sequence < d.sequence)
                order by d.next_at, d.sequence limit :limit""")
                .param("now", SqlTime.at(now)).param("limit", limit).query(DeliveryTable::row).list();
    }

    /** @return false if another node was quicker */
    boolean claim(DeliveryRow delivery, Instant now, Instant until) {
        return 1 == statement("""
                update delivery set claimed_until = :until where webhook_id = :webhook and event_id = :event
                    and status = 'WAITING' and attempts = :attempts and (claimed_until is null or claimed_until <= :now)""",
                delivery).param("attempts", delivery.attempts()).param("until", SqlTime.at(until))
                .param("now", SqlTime.at(now)).update();
    }

    void done(DeliveryRow delivery) {
        statement("update delivery set status = 'DONE', attempts = attempts + 1, claimed_until = null, error = null "
                + "where webhook_id = :webhook and event_id = :event and status = 'WAITING'", delivery).update();
    }

    /** @param next when to try again, or null to give it up */
    void failed(DeliveryRow delivery, String error, Instant next) {
        statement("update delivery set status = :status, attempts = attempts + 1, claimed_until = null, error = :error, "
                + "next_at = :next where webhook_id = :webhook and event_id = :event and status = 'WAITING'", delivery)
                .param("status", next == null ? "DEAD" : "WAITING")
                .param("error", error.substring(0, Math.min(500, error.length())))
                .param("next", SqlTime.at(next == null ? delivery.nextAt() : next)).update();
    }

    private JdbcClient.StatementSpec statement(String sql, DeliveryRow delivery) {
        return jdbc.sql(sql).param("webhook", delivery.webhookId()).param("event", delivery.eventId());
    }

    /** Gives up everything that waits for a webhook. */
    void giveUp(String webhook, String error) {
        jdbc.sql("update delivery set status = 'DEAD', claimed_until = null, error = :error "
                        + "where webhook_id = :webhook and status = 'WAITING'")
                .param("error", error).param("webhook", webhook).update();
    }

    /** Sends events again that were given up. @param event one of them, or null for all. @return how many */
    public int replay(String webhook, String event, Instant now) {
        return jdbc.sql("""
                update delivery set status = 'WAITING', attempts = 0, next_at = :now, claimed_until = null
                where webhook_id = :webhook and status = 'DEAD' and (cast(:event as varchar) is null or event_id = :event)""")
                .param("webhook", webhook).param("event", event).param("now", SqlTime.at(now)).update();
    }

    /** Newest first. @param status only these, or null for all */
    public List<DeliveryRow> of(String webhook, DeliveryStatus status, int limit) {
        return jdbc.sql(WITH_EVENT + "where d.webhook_id = :webhook "
                        + "and (cast(:status as varchar) is null or d.status = :status) order by d.sequence desc limit :limit")
                .param("webhook", webhook).param("status", status == null ? null : status.name()).param("limit", limit)
                .query(DeliveryTable::row).list();
    }

    void deleteOld(Instant before) {
        jdbc.sql("delete from event where created_at < :before").param("before", SqlTime.at(before)).update();
    }

    private static DeliveryRow row(ResultSet row, int number) throws SQLException {
        return new DeliveryRow(row.getString("webhook_id"), row.getString("event_id"), row.getString("type"),
                row.getString("subject"), row.getLong("sequence"), DeliveryStatus.valueOf(row.getString("status")),
                row.getInt("attempts"), SqlTime.read(row, "next_at"), row.getString("error"),
                row.getString("data"), SqlTime.read(row, "created_at"));
    }
}
