package layupmold.service.cluster;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import layupmold.api.mold.MoldResource;
import layupmold.api.mold.MoldStatus;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** One node with its own database file, as it runs unless configured otherwise, is killed at work and started again. */
@Timeout(240)
class KilledNodeTest {

    @TempDir
    private Path home;

    private NodeProcess start() {
        return NodeProcess.start(home.resolve("node.log"),
                "spring.datasource.url=jdbc:h2:file:" + home.resolve("db") + ";WRITE_DELAY=0;DB_CLOSE_ON_EXIT=FALSE",
                "layupmold.store.folder=" + home.resolve("blobs"), "layupmold.jobs.heartbeat=500ms",
                "layupmold.jobs.poll=200ms", "layupmold.jobs.light-threads=2", "layupmold.jobs.max-tries=5").awaitReady();
    }

    @Test
    void everyAcceptedJobIsFinishedAfterTheKill() throws IOException {
        List<String> accepted = new ArrayList<>();
        for (int round = 0; round < 2; round++) {
            NodeProcess node = start();
            for (int i = 0; i < 8; i++) {
                accepted.add(MoldClient.post(node, "slow 4 job " + round + " " + i));
            }
            node.kill();
        }
        try (NodeProcess node = start()) {
            for (String id : accepted) {
                MoldResource mold = MoldClient.get(node, id, 60);
                assertEquals(MoldStatus.DONE, mold.status(), () -> mold.toString());
                HttpResponse<byte[]> stl = NodeProcess.CLIENT.send(
                        HttpRequest.newBuilder(node.uri(mold.links().stl())).build(),
                        HttpResponse.BodyHandlers.ofByteArray());
                assertEquals(12, MeshReader.read(stl.body(), null, MeshLimits.defaults()).mesh().triangleCount());
            }
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
        assertEquals(accepted.size(), accepted.stream().distinct().count());
    }

    @Test
    void aStoppingNodeHandsBackWhatItCannotFinish() throws IOException {
        String id;
        NodeProcess node = NodeProcess.start(home.resolve("node.log"),
                "spring.datasource.url=jdbc:h2:file:" + home.resolve("db") + ";WRITE_DELAY=0;DB_CLOSE_ON_EXIT=FALSE",
                "layupmold.store.folder=" + home.resolve("blobs"), "layupmold.jobs.stop-within=300ms").awaitReady();
        // One long stage: only an interrupt ends it in time.
        id = MoldClient.post(node, "deaf 60 long");
        MoldResource running = MoldClient.get(node, id, 1);
        assertEquals(MoldStatus.RUNNING, running.status());
        node.terminate();
        // With a heartbeat of a minute nothing but the hand-back can have freed the job.
        try (NodeProcess next = NodeProcess.start(home.resolve("node.log"),
                "spring.datasource.url=jdbc:h2:file:" + home.resolve("db") + ";WRITE_DELAY=0;DB_CLOSE_ON_EXIT=FALSE",
                "layupmold.store.folder=" + home.resolve("blobs"), "layupmold.jobs.heartbeat=60s").awaitReady()) {
            assertEquals(MoldStatus.DONE, MoldClient.get(next, id, 60).status());
        }
    }

    @Test
    void nothingHalfWrittenIsEverUnderAHash() throws IOException {
        try (NodeProcess node = start()) {
            for (int i = 0; i < 30; i++) {
                MoldClient.post(node, "quick " + i);
            }
        }
        try (Stream<Path> files = Files.walk(home.resolve("blobs/sha256"))) {
            List<Path> blobs = files.filter(Files::isRegularFile).toList();
            assertTrue(!blobs.isEmpty());
            for (Path blob : blobs) {
                assertEquals(blob.getFileName().toString(), Hashes.sha256(blob));
            }
        }
    }
}
