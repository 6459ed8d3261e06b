package layupmold.service.farm;

import static org.hamcrest.Matchers.containsInAnyOrder;
import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.notNullValue;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.restassured.response.Response;
import io.zonky.test.db.postgres.embedded.EmbeddedPostgres;
import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.service.CubeMaker;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import layupmold.service.batch.SuitZips;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The print queue with cubes of 20 mm and 10 mm height. */
class FarmTest {

    private RunningService service;

    @BeforeEach
    void start() {
        service = RunningService.start(new CubeMaker(), "layupmold.farm.lease=2s", "layupmold.farm.max-tries=2",
                "layupmold.farm.look-for-silent-every=200ms");
    }

    @AfterEach
    void stop() {
        service.close();
    }

    private String mold(String recipe) {
        return mold(service, recipe);
    }

    private static String mold(RunningService node, String recipe) {
        return node.request().header("Prefer", "wait=60").contentType("model/stl").queryParam("recipe", recipe)
                .body(Parts.tetrahedron(20)).post("/v1/molds").then().statusCode(200).extract().path("id");
    }

    private String order(String json) {
        return service.request().contentType("application/json").body(json).post("/v1/prints").then().statusCode(201)
                .extract().path("items[0].id");
    }

    private Response lease(double bed, double height, String material) {
        return lease(service, "a printer", bed, height, material);
    }

    private static Response lease(RunningService node, String agent, double bed, double height, String material) {
        return node.request().contentType("application/json").body("{\"agent\":\"" + agent + "\",\"bedXMm\":" + bed
                + ",\"bedYMm\":" + bed + ",\"heightMm\":" + height + ",\"materials\":[\"" + material + "\"]}")
                .post("/v1/farm/leases");
    }

    @Test
    void theMostUrgentPrintsThatFitAreOnOnePlateWithTheirClearance() {
        String usual = order("{\"mold\":\"" + mold("{\"title\":\"usual\"}") + "\",\"quantity\":3}");
        String urgent = order("{\"mold\":\"" + mold("{\"title\":\"urgent\"}") + "\",\"priority\":5}");
        String other = order("{\"mold\":\"" + mold("{\"title\":\"other\",\"printer\":{\"material\":\"pla\"}}")
                + "\",\"priority\":9}");
        // A bed of 52 holds two by two cubes of 20.1 with 5 between and 2.5 to the edge.
        Response lease = lease(52, 100, "petg");
        lease.then().statusCode(201).body("items", hasSize(4)).body("material", equalTo("petg"))
                .body("items.name", containsInAnyOrder("urgent", "usual", "usual", "usual"));
        byte[] file = service.request().get(lease.<String>path("plate")).then().statusCode(200)
                .contentType("model/3mf").extract().asByteArray();
        TriangleMesh plate = MeshReader.read(file, null, MeshLimits.defaults()).mesh();
        assertEquals(4 * 12, plate.triangleCount());
        double[] box = plate.bounds();
        assertTrue(box[0] >= 2.5 && box[1] >= 2.5 && box[3] <= 49.5 && box[4] <= 49.5 && box[2] == 0);
        service.request().get("/v1/prints/" + usual).then().statusCode(200).body("leased", equalTo(3));
        service.request().get("/v1/prints/" + other).then().body("waiting", equalTo(1));
        lease(52, 100, "petg").then().statusCode(204);
        lease(52, 100, "pla").then().statusCode(201).body("items", hasSize(1));
        service.request().get("/v1/prints/" + urgent).then().body("leased", equalTo(1));
    }

    @Test
    void priorityDecidesWhenTheBedIsSmall() {
        String low = order("{\"mold\":\"" + mold("{\"title\":\"low\"}") + "\",\"priority\":-1}");
        String high = order("{\"mold\":\"" + mold("{\"title\":\"high\"}") + "\",\"priority\":1}");
        lease(30, 100, "petg").then().statusCode(201).body("items", hasSize(1)).body("items[0].print", equalTo(high));
        lease(30, 100, "petg").then().statusCode(201).body("items[0].print", equalTo(low));
    }

    @Test
    void whatDoesNotFitIsNotGivenOut() {
        order("{\"mold\":\"" + mold("{\"title\":\"big\"}") + "\"}");
        lease(24, 100, "petg").then().statusCode(204).header("Retry-After", notNullValue());
        lease(100, 10, "petg").then().statusCode(204);
        lease(100, 100, "abs").then().statusCode(204);
        lease(100, 100, "petg").then().statusCode(201);
    }

    @Test
    void aPrintWaitsForItsMold() {
        String mold = service.request().contentType("model/stl").queryParam("recipe", "{\"title\":\"slow 150\"}")
                .body(Parts.tetrahedron(21)).post("/v1/molds").path("id");
        order("{\"mold\":\"" + mold + "\"}");
        lease(100, 100, "petg").then().statusCode(204);
        service.request().header("Prefer", "wait=60").get("/v1/molds/" + mold).then().body("status", equalTo("done"));
        lease(100, 100, "petg").then().statusCode(201);
    }

    @Test
    void aFinishedPlateIsPrintedOnceAndForAll() {
        String job = order("{\"mold\":\"" + mold("{\"title\":\"once\"}") + "\",\"quantity\":2}");
        String lease = lease(100, 100, "petg").path("id");
        service.request().post("/v1/farm/leases/" + lease + "/renew").then().statusCode(200);
        service.request().post("/v1/farm/leases/" + lease + "/done").then().statusCode(200).body("status", equalTo("done"));
        service.request().post("/v1/farm/leases/" + lease + "/done").then().statusCode(200).body("status", equalTo("done"));
        service.request().post("/v1/farm/leases/" + lease + "/renew").then().statusCode(409)
                .body("type", containsString("lease-lost"));
        service.request().get("/v1/prints/" + job).then().body("done", equalTo(2));
        service.request().get("/v1/prints").then().statusCode(200).body("items", hasSize(0));
    }

    @Test
    void aFailedPlateComesBackUntilItsTriesAreOver() {
        String job = order("{\"mold\":\"" + mold("{\"title\":\"sticky\"}") + "\"}");
        for (int i = 0; i < 2; i++) {
            String lease = lease(100, 100, "petg").then().statusCode(201).extract().path("id");
            service.request().contentType("application/json").body("{\"reason\":\"it came loose\"}")
                    .post("/v1/farm/leases/" + lease + "/failed").then().statusCode(200).body("status", equalTo("failed"));
        }
        lease(100, 100, "petg").then().statusCode(204);
        service.request().get("/v1/prints/" + job).then().body("failed", equalTo(1)).body("reason", equalTo("it came loose"));
    }

    @Test
    void aSilentAgentLosesItsPlateToTheNext() {
        String job = order("{\"mold\":\"" + mold("{\"title\":\"silent\"}") + "\"}");
        String lost = lease(100, 100, "petg").path("id");
        Awaitility.await().atMost(Duration.ofSeconds(30)).until(() ->
                service.request().get("/v1/prints/" + job).<Integer>path("waiting") == 1);
        service.request().get("/v1/farm/leases/" + lost).then().body("status", equalTo("expired"));
        service.request().post("/v1/farm/leases/" + lost + "/done").then().statusCode(409);
        lease(100, 100, "petg").then().statusCode(201).body("items[0].print", equalTo(job));
    }

    @Test
    void aSuitIsOrderedWholeAndTwinsThatShareAMoldArePrintedOnce() {
        byte[] zip = SuitZips.with("a.stl", Parts.tetrahedron(22)).and("b.stl", Parts.tetrahedron(23))
                .and("suit.json", "{\"parts\":[{\"name\":\"a\",\"file\":\"a.stl\"},{\"name\":\"a2\",\"file\":\"a.stl\"},"
                        + "{\"name\":\"b\",\"file\":\"b.stl\"}]}").bytes();
        String suit = service.request().header("Prefer", "wait=60").contentType("application/zip").body(zip)
                .post("/v1/batches").path("id");
        service.request().contentType("application/json").body("{\"batch\":\"" + suit + "\"}").post("/v1/prints").then()
                .statusCode(201).body("items.name", equalTo(List.of("a", "b")));
        String waiting = service.request().get("/v1/prints").path("items[1].id");
        service.request().post("/v1/prints/" + waiting + "/cancel").then().statusCode(200).body("failed", equalTo(1));
        lease(100, 100, "petg").then().statusCode(201).body("items.name", equalTo(List.of("a")));
    }

    @Test
    void mistakesAreToldWithTheirPointers() {
        service.request().contentType("application/json").body("{\"agent\":\"x\",\"bedXMm\":5,\"materials\":[\"wood\"]}")
                .post("/v1/farm/leases").then().statusCode(422).body("errors.size()", equalTo(4));
        service.request().contentType("application/json").body("{\"mold\":\"nowhere\"}").post("/v1/prints").then()
                .statusCode(404);
        service.request().contentType("application/json").body("{}").post("/v1/prints").then().statusCode(422);
        service.request().contentType("application/json").body("nonsense").post("/v1/prints").then().statusCode(400);
        service.request().get("/v1/farm/leases/nowhere/plate.3mf").then().statusCode(404);
    }

    /** Two nodes on one PostgreSQL, eight agents at once: every print is given out once, and all are. */
    @Test
    void nothingIsGivenOutTwice(@TempDir Path home) throws IOException, InterruptedException {
        int copies = 60;
        try (EmbeddedPostgres postgres = EmbeddedPostgres.builder().start()) {
            String[] settings = {"spring.datasource.url=" + postgres.getJdbcUrl("postgres", "postgres"),
                "spring.datasource.username=postgres", "layupmold.store.folder=" + home, "layupmold.farm.lease=10m"};
            try (RunningService one = RunningService.start(new CubeMaker(), settings);
                    RunningService two = RunningService.start(new CubeMaker(), settings)) {
                String mold = mold(one, "{\"title\":\"many\"}");
                one.request().contentType("application/json").body("{\"mold\":\"" + mold + "\",\"quantity\":" + copies + "}")
                        .post("/v1/prints").then().statusCode(201);
                Map<String, AtomicInteger> onPlates = new ConcurrentHashMap<>();
                List<Throwable> failures = new ArrayList<>();
                ExecutorService agents = Executors.newFixedThreadPool(8);
                for (int a = 0; a < 8; a++) {
                    RunningService node = a % 2 == 0 ? one : two;
                    String agent = "agent-" + a;
                    agents.execute(() -> work(node, agent, onPlates, failures));
                }
                agents.shutdown();
                assertTrue(agents.awaitTermination(180, TimeUnit.SECONDS));
                assertEquals(List.of(), failures);
                assertEquals(copies, onPlates.values().stream().mapToInt(AtomicInteger::get).sum());
                assertTrue(onPlates.size() > 1, "several agents had work: " + onPlates);
                one.request().get("/v1/prints").then().body("items", hasSize(0));
            }
        }
    }

    private static void work(RunningService node, String agent, Map<String, AtomicInteger> onPlates,
            List<Throwable> failures) {
        try {
            for (Response lease = lease(node, agent, 52, 50, "petg"); lease.statusCode() != 204;
                    lease = lease(node, agent, 52, 50, "petg")) {
                if (lease.statusCode() == 503) {
                    continue;
                }
                assertEquals(201, lease.statusCode());
                onPlates.computeIfAbsent(agent, key -> new AtomicInteger()).addAndGet(lease.path("items.size()"));
                node.request().post("/v1/farm/leases/" + lease.path("id") + "/done").then().statusCode(200);
            }
        } catch (Throwable e) {
            synchronized (failures) {
                failures.add(e);
            }
        }
    }
}
