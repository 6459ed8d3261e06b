package layupmold.service.events;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import layupmold.api.ContractJson;
import layupmold.api.mold.MoldResource;
import layupmold.api.mold.MoldStatus;
import layupmold.service.CubeMaker;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class FollowMoldTest {

    private static final HttpClient CLIENT = HttpClient.newHttpClient();
    private static RunningService service;

    @BeforeAll
    static void start() throws IOException, InterruptedException {
        service = RunningService.start(new CubeMaker());
        follow(post("slow 1"), null);
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    private static String post(String title) {
        return service.request().contentType("model/stl").queryParam("recipe", "{\"title\":\"" + title + "\"}")
                .body(Parts.tetrahedron(20)).post("/v1/molds").then().statusCode(202).extract().path("id");
    }

    /** The stream's lines until the server ends it. */
    private static List<String> follow(String id, String lastSeen) throws IOException, InterruptedException {
        HttpRequest.Builder request = HttpRequest.newBuilder(
                URI.create("http://127.0.0.1:" + service.port() + "/v1/molds/" + id + "/events"))
                .header("Accept", "text/event-stream");
        if (lastSeen != null) {
            request.header("Last-Event-ID", lastSeen);
        }
        HttpResponse<Stream<String>> response =
                CLIENT.send(request.build(), HttpResponse.BodyHandlers.ofLines());
        assertEquals(200, response.statusCode());
        assertTrue(response.headers().firstValue("Content-Type").orElse("").startsWith("text/event-stream"));
        return response.body().toList();
    }

    private static List<String> values(List<String> lines, String field) {
        return lines.stream().filter(line -> line.startsWith(field + ":"))
                .map(line -> line.substring(field.length() + 1)).toList();
    }

    @Test
    void stagesArriveInOrderAndTheEndEndsTheStream() throws IOException, InterruptedException {
        List<String> lines = follow(post("slow 25"), null);
        List<String> events = values(lines, "event");
        assertEquals("done", events.get(events.size() - 1));
        assertTrue(events.subList(0, events.size() - 1).stream().allMatch("progress"::equals), events::toString);
        List<Long> ids = values(lines, "id").stream().map(Long::valueOf).toList();
        assertEquals(ids.stream().sorted().distinct().toList(), ids);
        int least = 0;
        for (String data : values(lines, "data")) {
            MoldResource mold = ContractJson.read(data.getBytes(), MoldResource.class);
            assertTrue(mold.percent() >= least, () -> "percent fell in " + lines);
            least = mold.percent();
        }
        assertEquals(100, least);
        long stages = lines.stream().filter(line -> line.contains("\"stage\":\"stage-")).count();
        assertTrue(stages >= 4, () -> "only " + stages + " of 25 stages in " + lines);
    }

    @Test
    void aRejectionIsTheLastEvent() throws IOException, InterruptedException {
        List<String> lines = follow(post("reject it"), null);
        List<String> data = values(lines, "data");
        MoldResource mold = ContractJson.read(data.get(data.size() - 1).getBytes(), MoldResource.class);
        assertEquals(MoldStatus.REJECTED, mold.status());
        assertEquals("wall-not-found", mold.problem().findings().get(0).code());
    }

    @Test
    void aClientThatComesBackGetsOnlyWhatIsNew() throws IOException, InterruptedException {
        String id = post("slow 3");
        List<String> first = follow(id, null);
        List<String> ids = values(first, "id");
        List<String> again = follow(id, ids.get(ids.size() - 2));
        assertEquals(List.of("done"), values(again, "event"));
    }

    @Test
    void deletingAMoldEndsItsStream() throws IOException, InterruptedException {
        String id = post("slow 50");
        CompletableFuture.delayedExecutor(500, TimeUnit.MILLISECONDS).execute(
                () -> service.request().delete("/v1/molds/" + id).then().statusCode(204));
        List<String> events = values(follow(id, null), "event");
        assertTrue(events.stream().allMatch("progress"::equals), events::toString);
        service.request().get("/v1/molds/" + id).then().statusCode(404);
    }
}
