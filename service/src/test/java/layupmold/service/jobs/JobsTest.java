package layupmold.service.jobs;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.nullValue;
import static org.hamcrest.Matchers.oneOf;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.restassured.response.Response;
import io.restassured.specification.RequestSpecification;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import layupmold.service.CubeMaker;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** What becomes of jobs, on the database that is used unless another is configured. */
@Timeout(120)
class JobsTest {

    private static final byte[] PART = Parts.tetrahedron(25);
    private static final CubeMaker MAKER = new CubeMaker();
    private static RunningService service;

    @BeforeAll
    static void start() {
        service = RunningService.start(MAKER, "layupmold.jobs.retry-after=100ms", "layupmold.jobs.poll=100ms",
                "layupmold.jobs.time-limit=3s", "layupmold.jobs.heavy-from=1MB", "layupmold.jobs.light-threads=2");
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    private static RequestSpecification part(String title) {
        return service.request().contentType("model/stl").queryParam("recipe", "{\"title\":\"" + title + "\"}")
                .body(PART);
    }

    @Test
    void aJobThatFailsIsTriedAgainAndThenGivenUpWithItsReason() {
        part("crash").header("Prefer", "wait=60").post("/v1/molds").then().statusCode(500)
                .body("type", equalTo("https://layupmold.invalid/problems/given-up"))
                .body("detail", containsString("3 times"))
                .body("detail", containsString("stage mesh (IllegalStateException)"));
        assertEquals(3, MAKER.begun.get("crash").get());
    }

    @Test
    void runningOutOfMemoryEndsOnlyTheJob() {
        part("die").header("Prefer", "wait=60").post("/v1/molds").then().statusCode(422)
                .body("type", equalTo("https://layupmold.invalid/problems/out-of-memory"));
        part("after die").header("Prefer", "wait=60").post("/v1/molds").then().statusCode(200);
    }

    @Test
    void aJobThatTakesTooLongIsEnded() {
        part("slow 99").header("Prefer", "wait=60").post("/v1/molds").then().statusCode(422)
                .body("type", equalTo("https://layupmold.invalid/problems/time-limit"));
        assertEquals(1, MAKER.begun.get("slow 99").get());
    }

    /** Two parts that would keep both workers for minutes within one stage. */
    @Test
    void jobsWhoseTimeIsUpOrThatAreCancelledFreeTheirWorkers() {
        String late = part("deaf 1800").post("/v1/molds").then().statusCode(202).extract().header("Location");
        String cancelled = part("deaf 1801").post("/v1/molds").then().statusCode(202).extract().header("Location");
        Awaitility.await().atMost(Duration.ofSeconds(30)).until(() -> MAKER.begun.containsKey("deaf 1801"));
        service.request().post(cancelled + "/cancel").then().statusCode(200);
        part("first after deaf").header("Prefer", "wait=60").post("/v1/molds").then().statusCode(200);
        service.request().header("Prefer", "wait=60").get(late).then().body("status", equalTo("failed"))
                .body("problem.type", equalTo("https://layupmold.invalid/problems/time-limit"));
        List<String> together = List.of(part("slow 9").post("/v1/molds").header("Location"),
                part("slow 10").post("/v1/molds").header("Location"));
        together.forEach(mold -> service.request().header("Prefer", "wait=60").get(mold).then()
                .body("status", equalTo("done")));
        Awaitility.await().atMost(Duration.ofSeconds(5)).untilAsserted(
                () -> assertEquals(0, service.bean(Stopping.class).running(), "workers that still compute"));
    }

    @Test
    void aCancelledJobStopsAndStaysCancelled() {
        String id = part("slow 20").post("/v1/molds").then().statusCode(202).extract().path("id");
        service.request().post("/v1/molds/" + id + "/cancel").then().statusCode(200).body("status", equalTo("cancelled"));
        service.request().post("/v1/molds/" + id + "/cancel").then().statusCode(200).body("status", equalTo("cancelled"));
        part("slow 21").header("Prefer", "wait=60").post("/v1/molds").then().statusCode(oneOf(200));
        service.request().get("/v1/molds/" + id).then().body("status", equalTo("cancelled"))
                .body("links.stl", nullValue());
        assertEquals(null, MAKER.finished.get("slow 20"));
    }

    @Test
    void cancellingAFinishedMoldChangesNothing() {
        String location = part("finished").header("Prefer", "wait=60").post("/v1/molds").header("Location");
        service.request().post(location + "/cancel").then().statusCode(200).body("status", equalTo("done"));
        service.request().get(location + "/mold.stl").then().statusCode(200);
    }

    @Test
    void aDeletedMoldIsGoneWithItsFiles() {
        String location = part("deleted").header("Prefer", "wait=60").post("/v1/molds").header("Location");
        service.request().delete(location).then().statusCode(204);
        service.request().get(location).then().statusCode(404);
        service.request().get(location + "/mold.stl").then().statusCode(404);
        service.request().delete(location).then().statusCode(404);
    }

    @Test
    void aRepeatedRequestWithItsKeyIsTheSameMold() {
        Response first = part("keyed").header("Idempotency-Key", "k-1").post("/v1/molds");
        Response again = part("keyed").header("Idempotency-Key", "k-1").header("Prefer", "wait=60").post("/v1/molds");
        assertEquals(first.header("Location"), again.header("Location"));
        again.then().statusCode(200).body("status", equalTo("done"));
        Response other = part("keyed").header("Idempotency-Key", "k-2").post("/v1/molds");
        assertNotEquals(first.header("Location"), other.header("Location"));
    }

    @Test
    void aKeyWithAnotherPayloadIsRefused() {
        part("keyed once").header("Idempotency-Key", "k-3").post("/v1/molds").then().statusCode(oneOf(202, 200));
        part("keyed twice").header("Idempotency-Key", "k-3").post("/v1/molds").then().statusCode(422)
                .body("type", equalTo("https://layupmold.invalid/problems/key-reused"));
    }

    @Test
    void aKeyWhoseMoldIsDeletedMakesAnother() {
        String first = part("deleted").header("Idempotency-Key", "k-5").post("/v1/molds").header("Location");
        service.request().delete(first).then().statusCode(204);
        String second = part("deleted").header("Idempotency-Key", "k-5").post("/v1/molds").header("Location");
        assertNotEquals(first, second);
        assertEquals(second, part("deleted").header("Idempotency-Key", "k-5").post("/v1/molds").header("Location"));
    }

    @Test
    void requestsWithOneKeyAtTheSameTimeMakeOneMold() throws InterruptedException {
        Set<String> locations = ConcurrentHashMap.newKeySet();
        ExecutorService clients = Executors.newFixedThreadPool(8);
        for (int i = 0; i < 24; i++) {
            clients.execute(() -> locations.add(
                    part("rushed").header("Idempotency-Key", "k-4").post("/v1/molds").header("Location")));
        }
        clients.shutdown();
        assertTrue(clients.awaitTermination(60, TimeUnit.SECONDS));
        assertEquals(1, locations.size(), locations::toString);
        service.request().header("Prefer", "wait=60").get(locations.iterator().next()).then().statusCode(200)
                .body("status", equalTo("done"));
        assertEquals(1, MAKER.finished.get("rushed").get());
    }

    @Test
    void aHeavyJobDoesNotHoldUpLightOnes() {
        List<String> queued = new ArrayList<>();
        for (int i = 0; i < 3; i++) {
            queued.add(service.request().contentType("model/stl").queryParam("recipe", "{\"title\":\"slow 28\"}")
                    .body(Parts.tetrahedra(25 + i, 10_000)).post("/v1/molds").header("Location"));
        }
        long start = System.nanoTime();
        part("light").header("Prefer", "wait=60").post("/v1/molds").then().statusCode(200);
        assertTrue(System.nanoTime() - start < 5_000_000_000L, "a light job waited for heavy ones");
        service.request().get(queued.get(2)).then().body("status", equalTo("queued"));
        queued.forEach(location -> service.request().delete(location));
    }

    @Test
    void pagesShowEveryMoldOnceNewestFirst() {
        List<String> made = new ArrayList<>();
        for (int i = 0; i < 7; i++) {
            made.add(part("page " + i).post("/v1/molds").path("id"));
        }
        List<String> seen = new ArrayList<>();
        String next = "/v1/molds?limit=3";
        while (next != null) {
            Response page = service.request().urlEncodingEnabled(false).get(next);
            page.then().statusCode(200);
            seen.addAll(page.path("items.id"));
            next = page.path("next");
        }
        assertEquals(seen.size(), Set.copyOf(seen).size(), "a mold was shown twice");
        List<String> ours = new ArrayList<>(seen);
        ours.retainAll(made);
        Collections.reverse(made);
        assertEquals(made, ours);
        service.request().get("/v1/molds?status=rejected").then().statusCode(200).body("items", hasSize(0));
    }
}
