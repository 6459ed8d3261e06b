package layupmold.service.batch;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import layupmold.service.sql.SqlTime;
import layupmold.service.store.Blob;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** The suits in the database. */
@Repository
public class BatchTable {

    private final JdbcClient jdbc;

    BatchTable(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    void insert(String id, String owner, SuitPlan plan, Instant now) {
        jdbc.sql("insert into batch (id, owner, title, sorted, attempt, created_at) "
                        + "values (:id, :owner, :title, false, 0, :now)")
                .param("id", id).param("owner", owner).param("title", plan.title())
                .param("now", SqlTime.at(now)).update();
        for (int i = 0; i < plan.parts().size(); i++) {
            SuitPlan.Part part = plan.parts().get(i);
            jdbc.sql("""
                    insert into batch_part (batch_id, position, name, file, mirror_of, quantity, recipe, part_key,
                        part_bytes)
                    values (:batch, :position, :name, :file, :mirrorOf, :quantity, :recipe, :key, :bytes)""")
                    .param("batch", id).param("position", i).param("name", part.name()).param("file", part.file())
                    .param("mirrorOf", part.mirrorOf()).param("quantity", part.quantity())
                    .param("recipe", part.recipe().json())
                    .param("key", part.mesh() == null ? null : part.mesh().key())
                    .param("bytes", part.mesh() == null ? null : part.mesh().bytes()).update();
        }
    }

    public Optional<BatchRow> find(String id, String owner) {
        return jdbc.sql("select * from batch where id = :id and owner = :owner").param("id", id).param("owner", owner)
                .query(BatchTable::batch).optional();
    }

    public List<PartRow> parts(String id) {
        return jdbc.sql("select * from batch_part where batch_id = :id order by position").param("id", id)
                .query(BatchTable::part).list();
    }

    /** A page of an owner's suits, newest first, older than the given one. */
    public List<BatchRow> page(String owner, Instant before, String beforeId, int limit) {
        return jdbc.sql("""
                select * from batch where owner = :owner
                    and (created_at < :before or (created_at = :before and id < :beforeId))
                order by created_at desc, id desc limit :limit""")
                .param("owner", owner).param("before", SqlTime.at(before)).param("beforeId", beforeId)
                .param("limit", limit)
                .query(BatchTable::batch).list();
    }

    /** Begins sorting. Empty if the suit is gone or sorted. */
    Optional<BatchRow> begin(String id) {
        int changed = jdbc.sql("update batch set attempt = attempt + 1 where id = :id and sorted = false")
                .param("id", id).update();
        return changed == 0 ? Optional.empty() : jdbc.sql("select * from batch where id = :id").param("id", id)
                .query(BatchTable::batch).optional();
    }

    /** @return false if it is gone or sorted already */
    boolean markSorted(String id, Instant expiry) {
        return 1 == jdbc.sql("update batch set sorted = true, expires_at = :expiry where id = :id and sorted = false")
                .param("id", id).param("expiry", SqlTime.at(expiry)).update();
    }

    void setMold(String batch, int position, Blob mesh, String mold, PartRow.Like like, String note) {
        jdbc.sql("""
                update batch_part set part_key = :key, part_bytes = :bytes, mold_id = :mold, like_name = :likeName,
                    like_mirrored = :mirrored, like_deviation_mm = :deviation, note = :note
                where batch_id = :batch and position = :position""")
                .param("key", mesh.key()).param("bytes", mesh.bytes()).param("mold", mold)
                .param("likeName", like == null ? null : like.name())
                .param("mirrored", like == null ? null : like.mirrored())
                .param("deviation", like == null ? null : like.deviationMm())
                .param("note", note).param("batch", batch).param("position", position).update();
    }

    boolean delete(String id, String owner) {
        return 1 == jdbc.sql("delete from batch where id = :id and owner = :owner")
                .param("id", id).param("owner", owner).update();
    }

    private static BatchRow batch(ResultSet row, int number) throws SQLException {
        return new BatchRow(row.getString("id"), row.getString("owner"), row.getString("title"),
                row.getBoolean("sorted"), row.getInt("attempt"),
                SqlTime.read(row, "created_at"), SqlTime.read(row, "expires_at"));
    }

    private static PartRow part(ResultSet row, int number) throws SQLException {
        String key = row.getString("part_key");
        String like = row.getString("like_name");
        return new PartRow(row.getInt("position"), row.getString("name"), row.getString("file"),
                row.getString("mirror_of"), row.getInt("quantity"), row.getString("recipe"),
                key == null ? null : new Blob(key, row.getLong("part_bytes")), row.getString("mold_id"),
                like == null ? null
                        : new PartRow.Like(like, row.getBoolean("like_mirrored"), row.getDouble("like_deviation_mm")),
                row.getString("note"));
    }
}
