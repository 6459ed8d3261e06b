package layupmold.service.farm;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import layupmold.api.farm.LeaseStatus;
import layupmold.api.recipe.PrintMaterial;
import layupmold.service.sql.SqlTime;
import layupmold.service.store.Blob;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Leases in the database. A lease ends once: by its agent, or by its time. */
@Repository
public class LeaseTable {

    private final JdbcClient jdbc;

    LeaseTable(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    void insert(LeaseRow lease) {
        jdbc.sql("""
                insert into lease (id, owner, agent, status, material, plate_key, plate_bytes, created_at, expires_at)
                values (:id, :owner, :agent, 'LEASED', :material, :key, :bytes, :now, :expiry)""")
                .param("id", lease.id()).param("owner", lease.owner()).param("agent", lease.agent())
                .param("material", lease.material().name()).param("key", lease.plate().key())
                .param("bytes", lease.plate().bytes()).param("now", SqlTime.at(lease.createdAt()))
                .param("expiry", SqlTime.at(lease.expiresAt())).update();
    }

    public Optional<LeaseRow> find(String id, String owner) {
        return jdbc.sql("select * from lease where id = :id and owner = :owner").param("id", id).param("owner", owner)
                .query(LeaseTable::row).optional();
    }

    Optional<LeaseRow> find(String id) {
        return jdbc.sql("select * from lease where id = :id").param("id", id).query(LeaseTable::row).optional();
    }

    /** @return false if it has ended */
    boolean renew(String id, String owner, Instant now, Instant expiry) {
        return 1 == jdbc.sql("update lease set expires_at = :expiry "
                        + "where id = :id and owner = :owner and status = 'LEASED' and expires_at > :now")
                .param("expiry", SqlTime.at(expiry)).param("id", id).param("owner", owner)
                .param("now", SqlTime.at(now)).update();
    }

    /** @return false if it has ended already */
    boolean end(String id, String owner, LeaseStatus status, Instant now) {
        return 1 == jdbc.sql("update lease set status = :status "
                        + "where id = :id and owner = :owner and status = 'LEASED' and expires_at > :now")
                .param("status", status.name()).param("id", id).param("owner", owner)
                .param("now", SqlTime.at(now)).update();
    }

    List<String> due(Instant now) {
        return jdbc.sql("select id from lease where status = 'LEASED' and expires_at <= :now order by expires_at limit 100")
                .param("now", SqlTime.at(now)).query(String.class).list();
    }

    /** @return false if another node has done it, or it was renewed meanwhile */
    boolean expire(String id, Instant now) {
        return 1 == jdbc.sql("update lease set status = 'EXPIRED' "
                        + "where id = :id and status = 'LEASED' and expires_at <= :now")
                .param("id", id).param("now", SqlTime.at(now)).update();
    }

    void deleteEnded(Instant before) {
        jdbc.sql("delete from lease where status <> 'LEASED' and expires_at < :before")
                .param("before", SqlTime.at(before)).update();
    }

    private static LeaseRow row(ResultSet row, int number) throws SQLException {
        return new LeaseRow(row.getString("id"), row.getString("owner"), row.getString("agent"),
                LeaseStatus.valueOf(row.getString("status")), PrintMaterial.valueOf(row.getString("material")),
                new Blob(row.getString("plate_key"), row.getLong("plate_bytes")),
                SqlTime.read(row, "created_at"), SqlTime.read(row, "expires_at"));
    }
}
