package layupmold.service.events;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import layupmold.api.ContractJson;
import layupmold.api.batch.BatchResource;
import layupmold.api.mold.MoldResource;
import layupmold.api.mold.MoldStatus;
import layupmold.service.CubeMaker;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import layupmold.service.batch.SuitZips;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** Progress of molds and suits as server-sent events. */
@Timeout(60)
class FollowTest {

    private static final HttpClient CLIENT = HttpClient.newHttpClient();
    private static RunningService service;

    @BeforeAll
    static void start() throws IOException, InterruptedException {
        service = RunningService.start(new CubeMaker());
        follow("/v1/molds/" + post("slow 1"), null);
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
    private static List<String> follow(String path, String lastSeen) throws IOException, InterruptedException {
        return follow(path, lastSeen, Integer.MAX_VALUE);
    }

    /** The stream's lines until the server ends it, or those of its first events. */
    private static List<String> follow(String path, String lastSeen, int events) throws IOException, InterruptedException {
        HttpRequest.Builder request = HttpRequest.newBuilder(
                URI.create("http://127.0.0.1:" + service.port() + path + "/events"))
                .header("Accept", "text/event-stream");
        if (lastSeen != null) {
            request.header("Last-Event-ID", lastSeen);
        }
        HttpResponse<Stream<String>> response =
                CLIENT.send(request.build(), HttpResponse.BodyHandlers.ofLines());
        assertEquals(200, response.statusCode());
        assertTrue(response.headers().firstValue("Content-Type").orElse("").startsWith("text/event-stream"));
        List<String> lines = new ArrayList<>();
        try (Stream<String> body = response.body()) {
            int ends = 0;
            for (Iterator<String> line = body.iterator(); ends < events && line.hasNext();) {
                lines.add(line.next());
                // An empty line ends an event (HTML standard, server-sent events).
                ends += lines.get(lines.size() - 1).isEmpty() && lines.stream().anyMatch(l -> l.startsWith("data:")) ? 1 : 0;
            }
        }
        return lines;
    }

    private static List<String> values(List<String> lines, String field) {
        return lines.stream().filter(line -> line.startsWith(field + ":"))
                .map(line -> line.substring(field.length() + 1)).toList();
    }

    @Test
    void stagesArriveInOrderAndTheEndEndsTheStream() throws IOException, InterruptedException {
        List<String> lines = follow("/v1/molds/" + post("slow 25"), null);
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
        List<String> lines = follow("/v1/molds/" + post("reject it"), null);
        List<String> data = values(lines, "data");
        MoldResource mold = ContractJson.read(data.get(data.size() - 1).getBytes(), MoldResource.class);
        assertEquals(MoldStatus.REJECTED, mold.status());
        assertEquals("wall-not-found", mold.problem().findings().get(0).code());
    }

    @Test
    void aClientThatComesBackGetsOnlyWhatIsNew() throws IOException, InterruptedException {
        String id = post("slow 3");
        List<String> first = follow("/v1/molds/" + id, null);
        List<String> ids = values(first, "id");
        List<String> again = follow("/v1/molds/" + id, ids.get(ids.size() - 2));
        assertEquals(List.of("done"), values(again, "event"));
        // Clients come back by themselves when a stream ends; this one must not wait for ever.
        List<String> onceMore = follow("/v1/molds/" + id, ids.get(ids.size() - 1));
        assertEquals(List.of("done"), values(onceMore, "event"));
    }

    @Test
    void deletingAMoldEndsItsStream() throws IOException, InterruptedException {
        String id = post("slow 50");
        CompletableFuture.delayedExecutor(500, TimeUnit.MILLISECONDS).execute(
                () -> service.request().delete("/v1/molds/" + id).then().statusCode(204));
        List<String> events = values(follow("/v1/molds/" + id, null), "event");
        assertTrue(events.stream().allMatch("progress"::equals), events::toString);
        service.request().get("/v1/molds/" + id).then().statusCode(404);
    }

    private static String postSuit(String... titles) {
        SuitZips zip = new SuitZips();
        List<String> parts = new ArrayList<>();
        for (int i = 0; i < titles.length; i++) {
            // Sizes apart, so that every part is made by itself.
            zip = zip.and("part-" + i + ".stl", Parts.tetrahedron(21 + i));
            parts.add("{\"name\":\"p" + i + "\",\"file\":\"part-" + i + ".stl\",\"recipe\":{\"title\":\"" + titles[i] + "\"}}");
        }
        return service.request().contentType("application/zip")
                .body(zip.and("suit.json", "{\"parts\":[" + String.join(",", parts) + "]}").bytes())
                .post("/v1/batches").then().statusCode(202).extract().path("links.self");
    }

    private static List<BatchResource> suits(List<String> lines) throws IOException {
        List<BatchResource> suits = new ArrayList<>();
        for (String data : values(lines, "data")) {
            suits.add(ContractJson.read(data.getBytes(StandardCharsets.UTF_8), BatchResource.class));
        }
        return suits;
    }

    @Test
    void aSuitTellsHowItGetsOnAndEndsWithItsLastMold() throws IOException, InterruptedException {
        String suit = postSuit("slow 12", "slow 20");
        List<String> lines = follow(suit, null);
        List<String> events = values(lines, "event");
        assertTrue(events.size() >= 5, events::toString);
        assertTrue(events.subList(0, events.size() - 1).stream().allMatch("progress"::equals), events::toString);
        assertEquals("done", events.get(events.size() - 1));
        List<BatchResource> states = suits(lines);
        assertEquals(states.stream().distinct().count(), states.size(), "a state was told twice");
        assertEquals(List.of(100, MoldStatus.DONE, MoldStatus.DONE), List.of(states.get(states.size() - 1).percent(),
                states.get(states.size() - 1).parts().get(0).status(), states.get(states.size() - 1).parts().get(1).status()));
        assertTrue(states.stream().anyMatch(state -> state.parts().get(0).status() == MoldStatus.DONE
                && state.parts().get(1).status() == MoldStatus.RUNNING), "the shorter part is done first");
        assertEquals(List.of("done"), values(follow(suit, values(lines, "id").get(events.size() - 1)), "event"));
    }

    @Test
    void aPartWithoutMoldMakesTheSuitIncomplete() throws IOException, InterruptedException {
        List<String> lines = follow(postSuit("slow 2", "reject one"), null);
        List<String> events = values(lines, "event");
        assertEquals("incomplete", events.get(events.size() - 1));
        List<BatchResource> states = suits(lines);
        assertEquals("wall-not-found",
                states.get(states.size() - 1).parts().get(1).problem().findings().get(0).code());
    }

    @Test
    void aClientThatSawTheSuitAsItStandsWaitsForNews() throws IOException, InterruptedException {
        String suit = postSuit("slow 6");
        List<String> ids = values(follow(suit, null), "id");
        assertEquals(ids.stream().distinct().count(), ids.size());
        assertEquals(List.of("done"), values(follow(suit, ids.get(0)), "event"));
        String waiting = postSuit("slow 40", "slow 41", "slow 42");
        String now = values(follow(waiting, null, 1), "id").get(0);
        List<String> again = values(follow(waiting, now, 1), "id");
        assertTrue(!again.contains(now), again::toString);
        service.request().delete(waiting).then().statusCode(204);
    }

    @Test
    void deletingASuitEndsItsStream() throws IOException, InterruptedException {
        String suit = postSuit("slow 50");
        CompletableFuture.delayedExecutor(500, TimeUnit.MILLISECONDS).execute(
                () -> service.request().delete(suit).then().statusCode(204));
        List<String> events = values(follow(suit, null), "event");
        assertTrue(events.stream().allMatch("progress"::equals), events::toString);
    }

    @Test
    void thereIsNothingToFollowWhereThereIsNoSuit() {
        service.request().accept("text/event-stream").get("/v1/batches/none/events").then().statusCode(404);
        String suit = postSuit("quick");
        service.request().accept("application/json").get(suit + "/events").then().statusCode(406);
    }
}
