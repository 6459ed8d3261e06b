package layupmold.service.sql;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;

/** Instants as JDBC's {@code timestamp with time zone} takes and gives them; null stays null. */
public final class SqlTime {

    private SqlTime() {
    }

    /** For a statement's parameter. */
    public static OffsetDateTime at(Instant time) {
        return time == null ? null : time.atOffset(ZoneOffset.UTC);
    }

    /** From a column. */
    public static Instant read(ResultSet row, String column) throws SQLException {
        OffsetDateTime time = row.getObject(column, OffsetDateTime.class);
        return time == null ? null : time.toInstant();
    }
}
