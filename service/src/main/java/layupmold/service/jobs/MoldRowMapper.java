package layupmold.service.jobs;

import java.sql.ResultSet;
import java.sql.SQLException;
import layupmold.api.mold.MoldStatus;
import layupmold.service.sql.SqlTime;
import layupmold.service.store.Blob;
import org.springframework.jdbc.core.RowMapper;

/** Reads {@link MoldRow}s. */
final class MoldRowMapper implements RowMapper<MoldRow> {

    @Override
    public MoldRow mapRow(ResultSet row, int number) throws SQLException {
        return new MoldRow(
                row.getString("id"),
                row.getString("owner"),
                MoldStatus.valueOf(row.getString("status")),
                row.getString("stage"),
                row.getInt("percent"),
                row.getInt("attempt"),
                row.getLong("version"),
                Lane.valueOf(row.getString("lane")),
                row.getString("title"),
                blob(row, "part"),
                row.getString("part_name"),
                row.getString("recipe"),
                row.getString("recipe_hash"),
                row.getString("stl_key") == null
                        ? null : new MoldFiles(blob(row, "stl"), blob(row, "three_mf"), blob(row, "report")),
                row.getString("problem"),
                SqlTime.read(row, "created_at"),
                SqlTime.read(row, "started_at"),
                SqlTime.read(row, "finished_at"),
                SqlTime.read(row, "expires_at"));
    }

    private static Blob blob(ResultSet row, String prefix) throws SQLException {
        return new Blob(row.getString(prefix + "_key"), row.getLong(prefix + "_bytes"));
    }
}
