package layupmold.service.jobs;

import java.time.Instant;
import java.util.Collection;
import java.util.List;
import java.util.Optional;
import layupmold.api.mold.MoldStatus;
import layupmold.service.sql.SqlTime;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/**
 * The molds in the database. Every write by a worker names the attempt it belongs to, so that a worker whose job was
 * cancelled, deleted or taken over changes nothing any more.
 */
@Repository
public class MoldTable {

    private static final String UNFINISHED = "status in ('QUEUED', 'RUNNING')";

    private final JdbcClient jdbc;
    private final MoldEnd end;

    MoldTable(JdbcClient jdbc, MoldEnd end) {
        this.jdbc = jdbc;
        this.end = end;
    }

    void insert(String id, NewMold mold, Lane lane, String engine, Instant now) {
        jdbc.sql("""
                insert into mold (id, owner, status, percent, attempt, version, lane, title, part_name, part_key,
                    part_bytes, recipe, recipe_hash, engine, created_at)
                values (:id, :owner, 'QUEUED', 0, 0, 1, :lane, :title, :partName, :partKey,
                    :partBytes, :recipe, :recipeHash, :engine, :now)""")
                .param("id", id)
                .param("owner", mold.owner())
                .param("lane", lane.name())
                .param("title", mold.recipe().effective().title())
                .param("partName", mold.partName())
                .param("partKey", mold.part().key())
                .param("partBytes", mold.part().bytes())
                .param("recipe", mold.recipe().json())
                .param("recipeHash", mold.recipe().hash())
                .param("engine", engine)
                .param("now", SqlTime.at(now))
                .update();
    }

    /** The mold, if it exists and belongs to the owner. */
    public Optional<MoldRow> find(String id, String owner) {
        return jdbc.sql("select * from mold where id = :id and owner = :owner")
                .param("id", id).param("owner", owner).query(new MoldRowMapper()).optional();
    }

    /** The mold, whoever owns it. */
    public Optional<MoldRow> find(String id) {
        return jdbc.sql("select * from mold where id = :id").param("id", id).query(new MoldRowMapper()).optional();
    }

    /** Those of the molds that still exist. */
    public List<MoldRow> findAll(Collection<String> ids) {
        return ids.isEmpty() ? List.of()
                : jdbc.sql("select * from mold where id in (:ids)").param("ids", ids).query(new MoldRowMapper()).list();
    }

    /** A finished mold of the same bytes, recipe and engine. */
    Optional<MoldRow> findSame(String owner, String partKey, String recipeHash, String engine) {
        return jdbc.sql("""
                select * from mold where owner = :owner and part_key = :partKey and recipe_hash = :recipeHash
                    and engine = :engine and status = 'DONE' order by created_at desc limit 1""")
                .param("owner", owner).param("partKey", partKey).param("recipeHash", recipeHash)
                .param("engine", engine).query(new MoldRowMapper()).optional();
    }

    /** Begins an attempt. Empty if the mold is gone or finished. */
    Optional<MoldRow> begin(String id, Instant now) {
        int changed = jdbc.sql("update mold set status = 'RUNNING', stage = null, percent = 0, attempt = attempt + 1, "
                        + "version = version + 1, started_at = :now where id = :id and " + UNFINISHED)
                .param("id", id).param("now", SqlTime.at(now)).update();
        return changed == 0 ? Optional.empty() : find(id);
    }

    /** @return false if the attempt is no longer the current one */
    boolean progress(String id, int attempt, String stage, int percent) {
        return 1 == jdbc.sql("""
                update mold set stage = :stage, percent = :percent, version = version + 1
                where id = :id and attempt = :attempt and status = 'RUNNING'""")
                .param("id", id).param("attempt", attempt).param("stage", stage).param("percent", percent).update();
    }

    /** Whether the attempt is the current one and under way. */
    boolean isRunning(String id, int attempt) {
        return jdbc.sql("select count(*) from mold where id = :id and attempt = :attempt and status = 'RUNNING'")
                .param("id", id).param("attempt", attempt).query(Long.class).single() == 1;
    }

    /** @return false if the attempt is no longer the current one; the files then stay unseen */
    boolean finish(String id, int attempt, MoldFiles files, Instant now, Instant expiry) {
        return end.end(id, () -> 1 == jdbc.sql("""
                update mold set status = 'DONE', stage = null, percent = 100, version = version + 1,
                    stl_key = :stl, stl_bytes = :stlBytes, three_mf_key = :threeMf, three_mf_bytes = :threeMfBytes,
                    report_key = :report, report_bytes = :reportBytes, finished_at = :now, expires_at = :expiry
                where id = :id and attempt = :attempt and status in ('QUEUED', 'RUNNING')""")
                .param("id", id).param("attempt", attempt)
                .param("stl", files.stl().key()).param("stlBytes", files.stl().bytes())
                .param("threeMf", files.threeMf().key()).param("threeMfBytes", files.threeMf().bytes())
                .param("report", files.report().key()).param("reportBytes", files.report().bytes())
                .param("now", SqlTime.at(now)).param("expiry", SqlTime.at(expiry)).update());
    }

    /** @return false if the attempt is no longer the current one */
    boolean end(String id, int attempt, MoldStatus status, String problemJson, Instant now, Instant expiry) {
        return end.end(id, () -> 1 == jdbc.sql("""
                update mold set status = :status, stage = null, problem = :problem, version = version + 1,
                    finished_at = :now, expires_at = :expiry
                where id = :id and attempt = :attempt and status in ('QUEUED', 'RUNNING')""")
                .param("id", id).param("attempt", attempt).param("status", status.name())
                .param("problem", problemJson).param("now", SqlTime.at(now))
                .param("expiry", SqlTime.at(expiry)).update());
    }

    /** Puts a mold back into the queue; with {@code counted} false the attempt does not count as a try. */
    boolean handBack(String id, int attempt, boolean counted) {
        return 1 == jdbc.sql("update mold set status = 'QUEUED', stage = null, percent = 0, version = version + 1, "
                        + "attempt = attempt - :less where id = :id and attempt = :attempt and status = 'RUNNING'")
                .param("id", id).param("attempt", attempt).param("less", counted ? 0 : 1).update();
    }

    /** @return false if it was finished already */
    boolean cancel(String id, Instant now, Instant expiry) {
        return end.end(id, () -> 1 == jdbc.sql("update mold set status = 'CANCELLED', stage = null, version = version + 1, "
                        + "finished_at = :now, expires_at = :expiry where id = :id and " + UNFINISHED)
                .param("id", id).param("now", SqlTime.at(now)).param("expiry", SqlTime.at(expiry)).update());
    }

    boolean delete(String id, String owner) {
        return 1 == jdbc.sql("delete from mold where id = :id and owner = :owner")
                .param("id", id).param("owner", owner).update();
    }

    /** Removes what has expired. */
    int deleteExpired(Instant now) {
        return jdbc.sql("delete from mold where expires_at < :now").param("now", SqlTime.at(now)).update();
    }

    /** Removes suits whose time is over; their molds have times of their own. */
    int deleteExpiredBatches(Instant now) {
        return jdbc.sql("delete from batch where expires_at < :now").param("now", SqlTime.at(now)).update();
    }

    /** Removes what showed molds that are gone. */
    int deleteOrphanedLooks() {
        return jdbc.sql("delete from look_file where not exists (select 1 from mold "
                + "where mold.stl_key = look_file.stl_key and mold.report_key = look_file.report_key)").update();
    }

    /** Whether any mold, part of a batch or leased plate refers to a blob. */
    boolean uses(String key) {
        return jdbc.sql("""
                select exists (select 1 from mold where part_key = :key)
                    or exists (select 1 from mold where stl_key = :key)
                    or exists (select 1 from mold where three_mf_key = :key)
                    or exists (select 1 from mold where report_key = :key)
                    or exists (select 1 from look_file l join mold m
                        on m.stl_key = l.stl_key and m.report_key = l.report_key where l.blob_key = :key)
                    or exists (select 1 from likeness where part_key = :key)
                    or exists (select 1 from batch_part where part_key = :key)
                    or exists (select 1 from lease where plate_key = :key)""")
                .param("key", key).query(Boolean.class).single();
    }

    /** Molds that wait or run in a lane. */
    public long unfinished(Lane lane) {
        return jdbc.sql("select count(*) from mold where lane = :lane and " + UNFINISHED)
                .param("lane", lane.name()).query(Long.class).single();
    }

    /** A page of an owner's molds, newest first, older than the given one. */
    public List<MoldRow> page(String owner, MoldStatus status, Instant before, String beforeId, int limit) {
        return jdbc.sql("""
                select * from mold where owner = :owner and (cast(:status as varchar) is null or status = :status)
                    and (created_at < :before or (created_at = :before and id < :beforeId))
                order by created_at desc, id desc limit :limit""")
                .param("owner", owner).param("status", status == null ? null : status.name())
                .param("before", SqlTime.at(before)).param("beforeId", beforeId).param("limit", limit)
                .query(new MoldRowMapper()).list();
    }
}
