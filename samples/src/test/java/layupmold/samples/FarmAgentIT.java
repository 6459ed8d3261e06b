package layupmold.samples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.OutputStream;
import java.io.PrintStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.stream.Stream;
import layupmold.api.batch.BatchResource;
import layupmold.api.farm.LeaseRequest;
import layupmold.api.farm.PrintOrderRequest;
import layupmold.api.recipe.PrintMaterial;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.samples.client.FarmClient;
import layupmold.samples.client.MoldClient;
import layupmold.samples.client.SuitFolder;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A pair of dishes from suit to printed plates, with two agents at work. */
class FarmAgentIT {

    @TempDir
    private Path folder;

    @Test
    void agentsPrintASuitToTheirFolder() throws Exception {
        Path suit = Files.createDirectory(folder.resolve("suit"));
        Dishes.write(suit);
        Path zip = folder.resolve("suit.zip");
        SuitFolder.zip(suit, zip);
        try (ServiceProcess service = ServiceProcess.start(
                Path.of(System.getProperty("service.jar")), folder.resolve("service"))) {
            MoldClient molds = new MoldClient(service.root());
            FarmClient farm = new FarmClient(service.root(), null);
            BatchResource end = molds.awaitSuit(molds.postSuit(zip, null), now -> { });
            farm.order(new PrintOrderRequest(null, end.id(), 2, null));
            Path plates = folder.resolve("plates");
            int printed = agent("small", 150, plates, farm).run() + agent("large", 400, plates, farm).run();
            assertTrue(printed >= 1);
            int solids = 0;
            try (Stream<Path> files = Files.list(plates)) {
                for (Path plate : files.toList()) {
                    solids += triangles(plate);
                }
            }
            Path mold = folder.resolve("mold.stl");
            molds.download(molds.get(end.parts().get(0).mold().replace("/v1/molds/", "")).links().stl(), mold);
            assertEquals(4 * triangles(mold), solids, "two prints of each of the two molds");
        }
    }

    private static FarmAgent agent(String name, double bed, Path plates, FarmClient farm) {
        LeaseRequest printer = new LeaseRequest(name, bed, bed, bed, List.of(PrintMaterial.PETG), null);
        return new FarmAgent(farm, printer, plates, Duration.ofMillis(200), new PrintStream(OutputStream.nullOutputStream()));
    }

    private static int triangles(Path file) throws IOException {
        TriangleMesh mesh = MeshReader.read(Files.readAllBytes(file), file.toString(), MeshLimits.defaults()).mesh();
        return mesh.triangleCount();
    }
}
