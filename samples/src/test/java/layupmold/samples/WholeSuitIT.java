package layupmold.samples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.io.IOException;
import java.io.OutputStream;
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
import layupmold.geometry.mesh.io.StlWriter;
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
        write(dish(1), suit.resolve("left.stl"));
        write(dish(-1), suit.resolve("right.stl"));
        Files.writeString(suit.resolve("suit.json"), """
                {"title": "Dishes", "parts": [
                  {"name": "left", "file": "left.stl", "recipe": {"title": "Left dish"}},
                  {"name": "right", "file": "right.stl", "mirrorOf": "left", "quantity": 2}]}
                """);
        Files.writeString(suit.resolve("suit.csv"), "part,file,mirror_of,quantity,recipe.title\n"
                + "left,left.stl,,1,Left dish\nright,right.stl,left,2,\n");
        service = ServiceProcess.start(Path.of(System.getProperty("service.jar")), folder.resolve("service"));
    }

    /** An open sheet without any symmetry: a shallow lopsided dish. */
    private static TriangleMesh dish(int side) {
        int rings = 12;
        int segments = 48;
        double[] xyz = new double[3 * (1 + rings * segments)];
        int[] triangles = new int[3 * segments * (2 * rings - 1)];
        xyz[2] = 14;
        int at = 0;
        for (int i = 1; i <= rings; i++) {
            for (int j = 0; j < segments; j++) {
                double r = (double) i / rings;
                double angle = 2 * Math.PI * j / segments;
                int v = 1 + (i - 1) * segments + j;
                xyz[3 * v] = side * 40 * r * Math.cos(angle) * (1 + 0.1 * Math.sin(angle));
                xyz[3 * v + 1] = 28 * r * Math.sin(angle) * (1 + 0.15 * Math.cos(angle));
                xyz[3 * v + 2] = 14 * (1 - r * r);
                int next = 1 + (i - 1) * segments + (j + 1) % segments;
                int inner = i == 1 ? 0 : v - segments;
                int innerNext = i == 1 ? 0 : next - segments;
                for (int corner : i == 1 ? new int[] {0, v, next} : new int[] {inner, v, next, inner, next, innerNext}) {
                    triangles[at++] = corner;
                }
            }
        }
        TriangleMesh mesh = new TriangleMesh(xyz, triangles);
        return side < 0 ? mesh.flipped() : mesh;
    }

    private static void write(TriangleMesh mesh, Path file) throws IOException {
        try (OutputStream out = Files.newOutputStream(file)) {
            StlWriter.write(mesh, "dish, mm", out);
        }
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
