package layupmold.service.farm;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.List;
import layupmold.service.sql.SqlTime;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Print jobs and their copies in the database. */
@Repository
public class PrintTable {

    private static final String COUNTED = """
            select j.*,
                (select count(*) from print_copy c where c.job_id = j.id and c.status = 'READY') as waiting,
                (select count(*) from print_copy c where c.job_id = j.id and c.status = 'LEASED') as leased,
                (select count(*) from print_copy c where c.job_id = j.id and c.status = 'DONE') as done,
                (select count(*) from print_copy c where c.job_id = j.id and c.status = 'FAILED') as failed
            from print_job j\s""";

    private final JdbcClient jdbc;

    PrintTable(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    void insert(PrintRow job, String owner) {
        jdbc.sql("""
                insert into print_job (id, order_id, owner, mold_id, name, priority, quantity, created_at)
                values (:id, :order, :owner, :mold, :name, :priority, :quantity, :now)""")
                .param("id", job.id()).param("order", job.orderId()).param("owner", owner).param("mold", job.moldId())
                .param("name", job.name()).param("priority", job.priority()).param("quantity", job.quantity())
                .param("now", SqlTime.at(job.createdAt())).update();
        for (int number = 1; number <= job.quantity(); number++) {
            jdbc.sql("insert into print_copy (job_id, number, status, tries) values (:job, :number, 'READY', 0)")
                    .param("job", job.id()).param("number", number).update();
        }
    }

    List<PrintRow> ofOrder(String order, String owner) {
        return jdbc.sql(COUNTED + "where j.owner = :owner and j.order_id = :order order by j.created_at, j.id")
                .param("owner", owner).param("order", order).query(PrintTable::row).list();
    }

    public List<PrintRow> find(String id, String owner) {
        return jdbc.sql(COUNTED + "where j.owner = :owner and j.id = :id").param("owner", owner).param("id", id)
                .query(PrintTable::row).list();
    }

    /** Jobs with copies that wait or are being printed, the most urgent first. */
    public List<PrintRow> unfinished(String owner, int limit) {
        return jdbc.sql(COUNTED + """
                where j.owner = :owner and exists (select 1 from print_copy c
                    where c.job_id = j.id and c.status in ('READY', 'LEASED'))
                order by j.priority desc, j.created_at, j.id limit :limit""")
                .param("owner", owner).param("limit", limit).query(PrintTable::row).list();
    }

    /** Copies whose molds are made, the most urgent first. */
    List<Copy> ready(String owner, int limit) {
        return jdbc.sql("""
                select c.job_id, c.number, j.mold_id, j.name from print_copy c
                    join print_job j on j.id = c.job_id join mold m on m.id = j.mold_id
                where j.owner = :owner and c.status = 'READY' and m.status = 'DONE'
                order by j.priority desc, j.created_at, j.id, c.number limit :limit""")
                .param("owner", owner).param("limit", limit).query(Copy.class).list();
    }

    /** @return false if somebody else has just taken it */
    boolean take(PlateCopy copy, String lease) {
        return 1 == jdbc.sql("""
                update print_copy set status = 'LEASED', lease_id = :lease, x_mm = :x, y_mm = :y, quarter_turns = :turns
                where job_id = :job and number = :number and status = 'READY'""")
                .param("lease", lease).param("x", copy.xMm()).param("y", copy.yMm()).param("turns", copy.quarterTurns())
                .param("job", copy.jobId()).param("number", copy.number()).update();
    }

    /** What stood on a plate, as long as it is there. */
    public List<PlateCopy> onPlate(String lease) {
        return jdbc.sql("""
                select c.job_id, c.number, j.mold_id, j.name, c.x_mm, c.y_mm, c.quarter_turns
                from print_copy c join print_job j on j.id = c.job_id
                where c.lease_id = :lease order by c.y_mm, c.x_mm, c.job_id, c.number""")
                .param("lease", lease).query(PlateCopy.class).list();
    }

    /** Holds a job's row until the transaction ends. */
    void lock(String job) {
        jdbc.sql("select id from print_job where id = :id for update").param("id", job).query(String.class).optional();
    }

    void finish(String lease) {
        jdbc.sql("update print_copy set status = 'DONE' where lease_id = :lease and status = 'LEASED'")
                .param("lease", lease).update();
    }

    /** Puts a plate's copies back, the tries counted or not; those with no tries left are given up. */
    void putBack(String lease, boolean counted, int maxTries, String reason) {
        jdbc.sql("update print_job set reason = :reason where id in "
                        + "(select job_id from print_copy where lease_id = :lease and status = 'LEASED')")
                .param("reason", reason).param("lease", lease).update();
        jdbc.sql("""
                update print_copy set tries = tries + :more, lease_id = null,
                    status = case when tries + :more >= :most then 'FAILED' else 'READY' end
                where lease_id = :lease and status = 'LEASED'""")
                .param("more", counted ? 1 : 0).param("most", maxTries).param("lease", lease).update();
    }

    /** Withdraws the copies that nobody has taken. */
    void cancel(String job) {
        jdbc.sql("update print_copy set status = 'FAILED' where job_id = :job and status = 'READY'")
                .param("job", job).update();
    }

    private static PrintRow row(ResultSet row, int number) throws SQLException {
        return new PrintRow(row.getString("id"), row.getString("order_id"), row.getString("mold_id"),
                row.getString("name"), row.getInt("priority"), row.getInt("quantity"), row.getInt("waiting"),
                row.getInt("leased"), row.getInt("done"), row.getInt("failed"), row.getString("reason"),
                SqlTime.read(row, "created_at"));
    }
}
