package layupmold.service.jobs;

import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import layupmold.geometry.congruence.Isometry;
import layupmold.service.store.Blob;
import org.springframework.jdbc.core.RowMapper;
import org.springframework.jdbc.core.simple.JdbcClient;
import org.springframework.stereotype.Repository;

/** Which molds are carried over from which. */
@Repository
public class LikeTable {

    private static final RowMapper<Like> ROW = (row, number) -> new Like(
            row.getString("like_mold"), new Blob(row.getString("part_key"), 0), row.getString("part_file"),
            row.getString("part_title"), map(row.getString("map")), row.getDouble("deviation_mm"));

    private final JdbcClient jdbc;

    LikeTable(JdbcClient jdbc) {
        this.jdbc = jdbc;
    }

    void insert(String mold, Like like) {
        jdbc.sql("""
                insert into likeness (mold_id, like_mold, part_key, part_file, part_title, map, deviation_mm)
                values (:mold, :like, :key, :file, :title, :map, :deviation)""")
                .param("mold", mold).param("like", like.mold()).param("key", like.part().key())
                .param("file", like.partFile()).param("title", like.title()).param("map", words(like.map()))
                .param("deviation", like.deviationMm()).update();
    }

    Optional<Like> find(String mold) {
        return jdbc.sql("select * from likeness where mold_id = :mold").param("mold", mold).query(ROW).optional();
    }

    /** Unfinished molds that are to be carried over from this one. */
    List<String> waitingFor(String mold) {
        return jdbc.sql("""
                select l.mold_id from likeness l join mold m on m.id = l.mold_id
                where l.like_mold = :mold and m.status in ('QUEUED', 'RUNNING') order by l.mold_id""")
                .param("mold", mold).query(String.class).list();
    }

    private static String words(Isometry map) {
        return Arrays.stream(map.toRowMajor()).mapToObj(Double::toString).collect(Collectors.joining(" "));
    }

    public static Isometry map(String words) {
        return Isometry.ofRowMajor(Arrays.stream(words.split(" ")).mapToDouble(Double::parseDouble).toArray());
    }
}
