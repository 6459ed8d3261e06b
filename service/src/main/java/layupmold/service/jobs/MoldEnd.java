package layupmold.service.jobs;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Locale;
import java.util.function.BooleanSupplier;
import layupmold.api.ContractJson;
import layupmold.api.mold.MoldStatus;
import layupmold.api.problem.Problem;
import layupmold.api.webhook.EventData;
import layupmold.service.webhook.Outbox;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Component;
import org.springframework.transaction.support.TransactionTemplate;

/** Ends a mold and writes down that it ended, and perhaps its suit with it, in one transaction. */
@Component
class MoldEnd {

    private final JdbcClient jdbc;
    private final Outbox outbox;
    private final TransactionTemplate transaction;

    MoldEnd(JdbcClient jdbc, Outbox outbox, TransactionTemplate transaction) {
        this.jdbc = jdbc;
        this.outbox = outbox;
        this.transaction = transaction;
    }

    /** @param update changes the mold's row and says whether it did */
    boolean end(String id, BooleanSupplier update) {
        return Boolean.TRUE.equals(transaction.execute(status -> {
            boolean changed = update.getAsBoolean();
            if (changed) {
                tell(id);
                jdbc.sql("select batch_id from batch_part where mold_id = :id order by batch_id").param("id", id)
                        .query(String.class).list().forEach(this::endBatch);
            }
            return changed;
        }));
    }

    private void tell(String id) {
        jdbc.sql("select * from mold where id = :id").param("id", id).query(new MoldRowMapper()).optional()
                .ifPresent(mold -> {
                    String word = mold.status().name().toLowerCase(Locale.ROOT);
                    String path = "/v1/molds/" + id;
                    outbox.append(mold.owner(), "layupmold.mold." + word, path, new EventData(
                            word, mold.title(), path, null, null, null, null, detail(mold)));
                });
    }

    private static String detail(MoldRow mold) {
        if (mold.problemJson() == null) {
            return null;
        }
        try {
            String detail = ContractJson.read(mold.problemJson().getBytes(StandardCharsets.UTF_8),
                    Problem.class).detail();
            return detail == null ? null : detail.substring(0, Math.min(2000, detail.length()));
        } catch (IOException e) {
            throw new UncheckedIOException("a stored problem cannot be read", e);
        }
    }

    private record BatchEnd(String id, String owner, String title) {
    }

    /** The suit's row is locked while its molds are counted, so of two that end together one sees both ended. */
    private void endBatch(String batch) {
        List<BatchEnd> open = jdbc.sql("select id, owner, title from batch "
                        + "where id = :id and sorted = true and finished = false for update")
                .param("id", batch).query(BatchEnd.class).list();
        long waiting = jdbc.sql("select count(*) from batch_part p join mold m on m.id = p.mold_id "
                        + "where p.batch_id = :id and m.status in ('QUEUED', 'RUNNING')")
                .param("id", batch).query(Long.class).single();
        if (open.isEmpty() || waiting > 0) {
            return;
        }
        jdbc.sql("update batch set finished = true where id = :id").param("id", batch).update();
        long missing = jdbc.sql("select count(*) from batch_part p left join mold m on m.id = p.mold_id "
                        + "where p.batch_id = :id and (m.status is null or m.status <> :done)")
                .param("id", batch).param("done", MoldStatus.DONE.name()).query(Long.class).single();
        String path = "/v1/batches/" + batch;
        String word = missing == 0 ? "done" : "incomplete";
        outbox.append(open.get(0).owner(), "layupmold.batch.finished", path, new EventData(
                word, open.get(0).title(), null, path, null, null, null,
                missing == 0 ? null : missing + " parts have no mold."));
    }
}
