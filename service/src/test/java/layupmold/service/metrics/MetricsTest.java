package layupmold.service.metrics;

import static org.hamcrest.Matchers.equalTo;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import layupmold.service.CubeMaker;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** What an operator sees: metrics, health and logs. */
class MetricsTest {

    @TempDir
    private static Path folder;
    private static RunningService service;

    @BeforeAll
    static void start() {
        service = RunningService.start(new CubeMaker(), "layupmold.jobs.light-threads=2", "layupmold.jobs.retry-after=50ms",
                "layupmold.store.folder=" + folder.resolve("blobs"), "management.endpoint.health.cache.time-to-live=0ms",
                "logging.file.name=" + folder.resolve("service.log"), "logging.structured.format.file=ecs",
                "logging.level.layupmold=INFO");
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    private static String post(String title, int wait) {
        return service.request().contentType("model/stl").queryParam("recipe", "{\"title\":\"" + title + "\"}")
                .header("Prefer", "wait=" + wait).body(Parts.tetrahedron(33)).post("/v1/molds").header("Location");
    }

    /** A sample of the Prometheus text format; zero if there is none. */
    private static double sample(String name, String... labels) {
        String text = service.request().get("/actuator/prometheus").then().statusCode(200).extract().asString();
        Matcher lines = Pattern.compile("^" + name + "\\{(.*)} (\\S+)$", Pattern.MULTILINE).matcher(text);
        while (lines.find()) {
            if (List.of(lines.group(1).split(",")).containsAll(List.of(labels))) {
                return Double.parseDouble(lines.group(2));
            }
        }
        return 0;
    }

    @Test
    void endsAreTimedAndFailuresCountedByCode() {
        post("counted", 20);
        post("reject this", 20);
        post("crash", 20);
        assertTrue(sample("layupmold_mold_seconds_count", "lane=\"light\"", "status=\"done\"") >= 1);
        assertEquals(1, sample("layupmold_mold_failures_total", "status=\"rejected\"", "code=\"wall-not-found\""));
        assertEquals(1, sample("layupmold_mold_failures_total", "status=\"failed\"", "code=\"given-up\""));
    }

    @Test
    void stagesAreTimed() {
        post("slow 3", 20);
        double seconds = sample("layupmold_stage_seconds_sum", "stage=\"stage-1\"");
        assertTrue(seconds >= 0.1 && seconds < 5, "a stage that sleeps 0.1 s took " + seconds);
        assertTrue(sample("layupmold_stage_seconds_count", "stage=\"write\"") >= 1);
    }

    @Test
    void theQueueShowsWhatWaitsAndWhatRuns() {
        List<String> slow = List.of(post("slow 400", 0), post("slow 401", 0), post("slow 402", 0), post("slow 403", 0));
        Awaitility.await().atMost(Duration.ofSeconds(30)).untilAsserted(() -> {
            assertEquals(2, sample("layupmold_queue", "lane=\"light\"", "state=\"running\""));
            assertEquals(2, sample("layupmold_queue", "lane=\"light\"", "state=\"queued\""));
            assertEquals(0, sample("layupmold_queue", "lane=\"heavy\"", "state=\"queued\""));
        });
        slow.forEach(location -> service.request().delete(location).then().statusCode(204));
    }

    @Test
    void aNodeWhoseStoreFailsIsNotReady() throws Exception {
        service.request().get("/actuator/health/readiness").then().statusCode(200).body("status", equalTo("UP"));
        Path drafts = folder.resolve("blobs").resolve("unfinished");
        Path aside = folder.resolve("aside");
        Files.move(drafts, aside);
        try {
            service.request().get("/actuator/health/readiness").then().statusCode(503);
            service.request().get("/actuator/health/liveness").then().statusCode(200);
        } finally {
            Files.move(aside, drafts);
        }
        service.request().get("/actuator/health/readiness").then().statusCode(200);
    }

    @Test
    void logsAreJsonWithTheMold() throws Exception {
        String location = post("logged", 20);
        String id = location.substring(location.lastIndexOf('/') + 1);
        List<JsonNode> lines = Files.readAllLines(folder.resolve("service.log"), StandardCharsets.UTF_8).stream()
                .map(line -> JsonMapper.shared().readTree(line)).filter(line -> line.toString().contains(id)).toList();
        assertFalse(lines.isEmpty());
        assertTrue(lines.stream().anyMatch(line -> line.path("mold").asString("").equals(id)
                && line.path("message").asString("").startsWith("mold made")), lines.toString());
    }
}
