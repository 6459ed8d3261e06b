package layupmold.service.report;

import java.util.Optional;
import layupmold.service.jobs.MoldFiles;
import layupmold.service.store.Blob;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Which blobs show which mold. */
@Repository
class LookTable {

    /** A file that is in the store. */
    record Kept(Blob blob, String mediaType) {
    }

    private final JdbcClient jdbc;

    LookTable(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    Optional<Kept> find(MoldFiles mold, String name) {
        return jdbc.sql("select * from look_file where stl_key = :stl and report_key = :report and name = :name")
                .param("stl", mold.stl().key()).param("report", mold.report().key()).param("name", name)
                .query((row, n) -> new Kept(new Blob(row.getString("blob_key"), row.getLong("blob_bytes")),
                        row.getString("media_type")))
                .optional();
    }

    /** Forgets one of a mold's files. */
    void remove(MoldFiles mold, String name) {
        jdbc.sql("delete from look_file where stl_key = :stl and report_key = :report and name = :name")
                .param("stl", mold.stl().key()).param("report", mold.report().key()).param("name", name).update();
    }

    void insert(MoldFiles mold, String name, String mediaType, Blob blob) {
        jdbc.sql("""
                insert into look_file (stl_key, report_key, name, media_type, blob_key, blob_bytes)
                values (:stl, :report, :name, :type, :key, :bytes)""")
                .param("stl", mold.stl().key()).param("report", mold.report().key()).param("name", name)
                .param("type", mediaType).param("key", blob.key()).param("bytes", blob.bytes()).update();
    }
}
