package layupmold.samples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import layupmold.api.ContractJson;
import layupmold.api.batch.BatchResource;
import layupmold.api.batch.BatchStatus;
import layupmold.api.batch.LikenessKind;
import layupmold.api.batch.SuitSummary;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.samples.client.MoldClient;
import layupmold.samples.client.SuitFolder;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A pair of parts as a suit through the packaged service: by script, and by the Java client. */
class WholeSuitIT {

    @TempDir
    private static Path folder;
    private static Path suit;
    private static ServiceProcess service;

    @BeforeAll
    static void start() throws Exception {
        suit = Files.createDirectory(folder.resolve("suit"));
        Dishes.write(suit);
        service = ServiceProcess.start(Path.of(System.getProperty("service.jar")), folder.resolve("service"));
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    @Test
    void theScriptLeavesMoldsAndSummary() throws Exception {
        Path out = folder.resolve("molds");
        assertEquals("", script(out, "suit.json"));
        TriangleMesh left = mesh(out.resolve("left/mold.stl"));
        TriangleMesh right = mesh(out.resolve("right/mold.stl"));
        assertEquals(left.volume(), right.volume(), 1e-9 * left.volume());
        assertEquals(-left.vertex(0).x, right.vertex(0).x, 1e-6);
        SuitSummary summary = ContractJson.read(Files.readAllBytes(out.resolve("summary.json")), SuitSummary.class);
        assertEquals(2, summary.molds());
        assertEquals(LikenessKind.MIRRORED, summary.parts().get(1).likeness().kind());
        assertTrue(Files.readString(out.resolve("summary.html")).contains("mirror image of left"));
    }

    @Test
    void theTableDoesAsWell() throws Exception {
        assertEquals("", script(folder.resolve("by-csv"), "suit.csv"));
        assertTrue(Files.exists(folder.resolve("by-csv/right/mold.3mf")));
    }

    @Test
    void theClientPostsASuit() throws Exception {
        MoldClient client = new MoldClient(service.root());
        Path zip = folder.resolve("suit.zip");
        SuitFolder.zip(suit, zip);
        BatchResource end = client.awaitSuit(client.postSuit(zip, "by-client"), now -> { });
        assertEquals(BatchStatus.DONE, end.status(), end::toString);
        assertNotNull(end.parts().get(1).likeness());
        client.download(end.links().bundle(), folder.resolve("bundle.zip"));
        assertEquals(3, client.summary(end).pieces());
    }

    /** @return what it had to say if it failed, else nothing */
    private static String script(Path out, String manifest) throws IOException, InterruptedException {
        File log = folder.resolve("script.log").toFile();
        ProcessBuilder script = new ProcessBuilder("bash", "scripts/whole-suit.sh", suit.toString(), out.toString(), manifest)
                .redirectErrorStream(true).redirectOutput(log);
        script.environment().put("LAYUPMOLD", service.root().toString().replaceAll("/$", ""));
        return script.start().waitFor() == 0 ? "" : Files.readString(log.toPath());
    }

    private static TriangleMesh mesh(Path stl) throws IOException {
        return MeshReader.read(Files.readAllBytes(stl), "mold.stl", MeshLimits.defaults()).mesh();
    }
}
