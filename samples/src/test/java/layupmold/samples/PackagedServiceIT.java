package layupmold.samples;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.file.Files;
import java.nio.file.Path;
import layupmold.api.mold.MoldResource;
import layupmold.api.mold.MoldStatus;
import layupmold.api.recipe.MoldRecipe;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.samples.client.MoldClient;
import layupmold.samples.client.ServiceProblem;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The one runnable jar, started as the README starts it. */
class PackagedServiceIT {

    @TempDir
    private static Path folder;
    private static ServiceProcess service;

    @BeforeAll
    static void start() throws Exception {
        service = ServiceProcess.start(Path.of(System.getProperty("service.jar")), folder.resolve("service"));
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    @Test
    void makesAMoldOfAPostedPart() throws Exception {
        MoldClient client = new MoldClient(service.root());
        MoldResource end = client.await(
                client.post(Path.of("heron", "forearm-left.stl"), MoldRecipe.defaults(), null), now -> { });
        assertEquals(MoldStatus.DONE, end.status(), () -> String.valueOf(end.problem()));
        Path mold = folder.resolve("mold.stl");
        client.download(end.links().stl(), mold);
        assertEquals(client.report(end).body().triangles(),
                MeshReader.read(Files.readAllBytes(mold), "mold.stl", MeshLimits.defaults()).mesh().triangleCount());
    }

    @Test
    void tellsAProblemInItsOwnJson() {
        MoldClient client = new MoldClient(service.root());
        ServiceProblem problem = assertThrows(ServiceProblem.class, () -> client.get("no-such-mold"));
        assertEquals(404, problem.problem().status());
        assertTrue(problem.problem().type().endsWith("/not-found"), problem.problem().type());
    }
}
