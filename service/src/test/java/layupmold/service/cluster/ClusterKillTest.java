package layupmold.service.cluster;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.nio.file.Path;
import java.sql.Connection;
import java.sql.ResultSet;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Random;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/**
 * Three nodes share one PostgreSQL and one folder while one of them is killed every few seconds. A trigger in the
 * database, outside the service, counts how often a mold becomes done.
 *
 * <p>{@code -Dcluster.jobs=300} runs the full trial; it prints its figures.
 */
@Timeout(900)
class ClusterKillTest {

    private static final int JOBS = Integer.getInteger("cluster.jobs", 40);
    private static final int NODES = 3;
    private static final String AUDIT = """
            create table audit (id varchar(64) not null);
            create function audit_done() returns trigger language plpgsql as $$ begin
                if new.status = 'DONE' and old.status <> 'DONE' then insert into audit values (new.id); end if;
                return new;
            end $$;
            create trigger audit_done after update on mold for each row execute function audit_done();""";

    @TempDir
    private Path home;

    private final Random random = new Random(20260314);
    private final List<NodeProcess> nodes = new ArrayList<>();
    private int kills;

    @Test
    void everyJobHasExactlyOneResultWhateverIsKilled() throws IOException, SQLException, InterruptedException {
        try (EmbeddedPostgres postgres = EmbeddedPostgres.builder().start()) {
            String url = postgres.getJdbcUrl("postgres", "postgres");
            startNode(url).awaitReady();
            execute(postgres, AUDIT);
            while (nodes.size() < NODES) {
                startNode(url);
            }
            nodes.forEach(NodeProcess::awaitReady);
            List<String> accepted = new ArrayList<>();
            for (int i = 0; i < JOBS; i++) {
                accepted.add(MoldClient.post(nodes.get(i % NODES), "slow 12 job " + i));
            }
            double seconds = killUntilFinished(postgres, url);
            System.out.printf(Locale.ROOT, "cluster: %d jobs on %d nodes in %.1f s, %d kills, one every %.1f s%n", JOBS, NODES,
                    seconds, kills, seconds / kills);
            assertEquals(JOBS, accepted.stream().distinct().count());
            assertEquals(JOBS, count(postgres, "select count(*) from mold where status = 'DONE'"));
            assertEquals(JOBS, count(postgres, "select count(*) from audit"));
            assertEquals(JOBS, count(postgres, "select count(distinct id) from audit"));
            // A node killed between a mold's end and its queue's next write leaves an entry that another clears away.
            Awaitility.await().atMost(Duration.ofSeconds(60)).untilAsserted(
                    () -> assertEquals(0, count(postgres, "select count(*) from light_lane")));
            assertEquals(JOBS, count(postgres, "select count(*) from audit"));
            assertTrue(kills > 0);
        } finally {
            nodes.forEach(NodeProcess::kill);
        }
    }

    /** Any node may be hit, also one that is just starting, but the last that is up is spared so that work goes on. */
    private double killUntilFinished(EmbeddedPostgres postgres, String url) throws SQLException, InterruptedException {
        long start = System.nanoTime();
        while (count(postgres, "select count(*) from mold where status in ('QUEUED', 'RUNNING')") > 0
                && System.nanoTime() - start < 600_000_000_000L) {
            Thread.sleep(2000 + random.nextInt(3000));
            List<NodeProcess> up = nodes.stream().filter(NodeProcess::isReady).toList();
            List<NodeProcess> targets = nodes.stream().filter(node -> up.size() > 1 || !up.contains(node)).toList();
            NodeProcess hit = targets.get(random.nextInt(targets.size()));
            hit.kill();
            nodes.remove(hit);
            kills++;
            startNode(url);
        }
        return (System.nanoTime() - start) / 1e9;
    }

    private NodeProcess startNode(String url) {
        NodeProcess node = NodeProcess.start(home.resolve("node.log"),
                "spring.datasource.url=" + url, "spring.datasource.username=postgres",
                "layupmold.store.folder=" + home.resolve("blobs"), "layupmold.jobs.heartbeat=500ms",
                "layupmold.jobs.poll=200ms", "layupmold.jobs.light-threads=2", "layupmold.jobs.max-tries=50");
        nodes.add(node);
        return node;
    }

    private static void execute(EmbeddedPostgres postgres, String sql) throws SQLException {
        try (Connection connection = postgres.getPostgresDatabase().getConnection();
                Statement statement = connection.createStatement()) {
            statement.execute(sql);
        }
    }

    private static long count(EmbeddedPostgres postgres, String sql) throws SQLException {
        try (Connection connection = postgres.getPostgresDatabase().getConnection();
                Statement statement = connection.createStatement();
                ResultSet result = statement.executeQuery(sql)) {
            result.next();
            return result.getLong(1);
        }
    }
}
