package layupmold.service.webhook;

import java.nio.charset.StandardCharsets;
import java.time.Clock;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import layupmold.api.ContractJson;
import layupmold.api.webhook.EventData;
import layupmold.service.sql.SqlTime;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;

/**
 * Writes down what happened, in the transaction in which it happened: an event is sent if and only if the change it tells
 * of was committed. Where nobody listens nothing is written.
 */
@Component
public class Outbox {

    private final JdbcClient jdbc;
    private final WebhookTable webhooks;
    private final Clock clock;

    Outbox(JdbcClient jdbc, WebhookTable webhooks, Clock clock) {
        this.jdbc = jdbc;
        this.webhooks = webhooks;
        this.clock = clock;
    }

    /**
     * To be called within a transaction, after the row of the subject was changed in it: that row's lock puts the events
     * of one subject in order.
     *
     * @param subject path of the mold or suit
     */
    public void append(String owner, String type, String subject, EventData data) {
        List<WebhookRow> listeners = webhooks.of(owner).stream()
                .filter(webhook -> webhook.enabled() && webhook.wants(type)).toList();
        if (listeners.isEmpty()) {
            return;
        }
        String id = "evt_" + UUID.randomUUID().toString().replace("-", "");
        Instant now = clock.instant();
        jdbc.sql("insert into event (id, type, subject, data, created_at) values (:id, :type, :subject, :data, :now)")
                .param("id", id).param("type", type).param("subject", subject)
                .param("data", new String(ContractJson.write(data), StandardCharsets.UTF_8))
                .param("now", SqlTime.at(now)).update();
        for (WebhookRow webhook : listeners) {
            jdbc.sql("""
                    insert into delivery (webhook_id, event_id, subject, sequence, status, attempts, next_at)
                    select :webhook, id, subject, sequence, 'WAITING', 0, created_at from event where id = :id""")
                    .param("webhook", webhook.id()).param("id", id).update();
        }
    }
}
