package layupmold.service.http;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.matchesPattern;
import static org.hamcrest.Matchers.notNullValue;
import static org.hamcrest.Matchers.startsWith;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import io.restassured.response.Response;
import java.nio.charset.StandardCharsets;
import java.util.List;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.service.CubeMaker;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import layupmold.service.SampleReport;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

class PostMoldTest {

    private static final byte[] PART = Parts.tetrahedron(30);
    private static RunningService service;

    @BeforeAll
    static void start() {
        service = RunningService.start(new CubeMaker());
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    private static String titled(String title) {
        return "{\"title\":\"" + title + "\"}";
    }

    @Test
    void aFormIsAcceptedAtOnceWithAPlaceToLook() {
        Response accepted = service.request().multiPart("part", "beak.stl", PART).multiPart("recipe", titled("slow 3"))
                .post("/v1/molds");
        accepted.then().statusCode(202)
                .header("Location", matchesPattern("/v1/molds/[0-9a-f-]{36}"))
                .header("Retry-After", matchesPattern("[1-9][0-9]*"))
                .body("status", equalTo("queued")).body("title", equalTo("slow 3"))
                .body("part.name", equalTo("beak.stl")).body("part.bytes", equalTo(PART.length))
                .body("links.self", equalTo(accepted.header("Location")));
    }

    @Test
    void waitingAnswersWithTheFinishedResourceAndItsFiles() {
        Response done = service.request().header("Prefer", "wait=20").multiPart("part", "beak.stl", PART)
                .multiPart("recipe", titled("waited"), "application/json").post("/v1/molds");
        done.then().statusCode(200).header("Preference-Applied", "wait=20").header("ETag", startsWith("\""))
                .body("status", equalTo("done")).body("percent", equalTo(100));
        String stl = done.path("links.stl");
        byte[] mold = service.request().get(stl).then().statusCode(200).contentType("model/stl")
                .header("Content-Disposition", containsString("mold.stl")).extract().asByteArray();
        assertEquals(12, MeshReader.read(mold, null, MeshLimits.defaults()).mesh().triangleCount());
        service.request().get(done.<String>path("links.report")).then().statusCode(200)
                .body("recipeHash", equalTo(done.path("recipeHash")))
                .body("partSha256", equalTo(done.path("part.sha256")))
                .body("partToMold.size()", equalTo(16))
                .body("checks.components", equalTo(SampleReport.filled().checks().components()));
        service.request().get(done.<String>path("links.threeMf")).then().statusCode(200).contentType("model/3mf");
    }

    @Test
    void askingForTheMoldItselfWaitsAndGivesIt() {
        Response mold = service.request().accept("model/stl").multiPart("part", "beak.stl", PART).post("/v1/molds");
        mold.then().statusCode(200).contentType("model/stl").header("Location", notNullValue());
        assertArrayEquals(service.request().get(mold.header("Location") + "/mold.stl").asByteArray(), mold.asByteArray());
    }

    @Test
    void theBestAcceptedTypeIsGiven() {
        service.request().accept("model/stl;q=0.5, model/3mf, application/json;q=0.4").body(PART)
                .contentType("model/stl").post("/v1/molds").then().statusCode(200).contentType("model/3mf");
    }

    @Test
    void aRawBodyTakesItsRecipeFromTheQuery() {
        service.request().contentType("application/octet-stream").queryParam("recipe", "{\"releaseMm\":0.2}")
                .header("Prefer", "wait=20").body(PART).post("/v1/molds").then().statusCode(200)
                .body("recipe.releaseMm", equalTo(0.2f)).body("recipe.tool", equalTo("female"));
    }

    @Test
    void whenTheTimeIsOverTheMoldItselfIsNotReplacedByJson() {
        Response later = service.request().accept("model/stl").header("Prefer", "wait=0").contentType("model/stl")
                .queryParam("recipe", titled("slow 5")).body(PART).post("/v1/molds");
        later.then().statusCode(202).header("Location", notNullValue());
        assertEquals(0, later.asByteArray().length);
    }

    @Test
    void respondAsyncDoesNotWaitEvenForTheMold() {
        service.request().accept("model/stl").header("Prefer", "respond-async").contentType("model/stl")
                .queryParam("recipe", titled("slow 6")).body(PART).post("/v1/molds").then().statusCode(202)
                .header("Preference-Applied", "respond-async");
    }

    @Test
    void aRejectedPartIsAProblemWithItsPlaceWhateverIsAccepted() {
        for (String accept : new String[] {"model/stl", "application/json", "*/*"}) {
            service.request().accept(accept).header("Prefer", "wait=20").multiPart("part", "beak.stl", PART)
                    .multiPart("recipe", titled("reject " + accept.length())).post("/v1/molds").then().statusCode(422)
                    .contentType("application/problem+json")
                    .body("type", equalTo("https://layupmold.invalid/problems/part-rejected"))
                    .body("findings[0].code", equalTo("wall-not-found"))
                    .body("findings[0].place.x", equalTo(1.0f)).body("findings[0].place.triangle", equalTo(0))
                    .body("findings[0].advice", equalTo("Give a seed point."));
        }
    }

    @Test
    void aFileThatIsNoMeshIsRejectedByTheReader() {
        service.request().header("Prefer", "wait=20").contentType("application/octet-stream")
                .body("these are no triangles".getBytes(StandardCharsets.UTF_8)).post("/v1/molds").then().statusCode(422)
                .body("findings[0].stage", equalTo("read"));
    }

    @Test
    void mistakesInARecipeAreToldWithTheirPointers() {
        service.request().multiPart("part", "beak.stl", PART)
                .multiPart("recipe", "{\"flange\":{\"width\":5},\"releaseMm\":3,\"tool\":\"femail\",\"pull\":[0,0,0],"
                        + "\"layup\":{\"plies\":[{\"weave\":\"plain\"},{\"arealWeightGsm\":\"210\"}]}}", "application/json")
                .post("/v1/molds").then().statusCode(422)
                .body("type", equalTo("https://layupmold.invalid/problems/recipe-invalid"))
                .body("errors.pointer", equalTo(List.of("/flange/width",
                        "/layup/plies/1/arealWeightGsm", "/pull", "/releaseMm", "/tool")))
                .body("errors.code", equalTo(List.of("unknown-field", "wrong-type", "not-allowed",
                        "out-of-range", "not-allowed")));
    }

    @Test
    void aRecipeThatIsNotJsonIsMalformed() {
        for (String recipe : new String[] {"{\"tool\":", "[1,2", "{tool:male}", "{} {}", "NaN", "{\"releaseMm\":NaN}"}) {
            service.request().multiPart("part", "beak.stl", PART).multiPart("recipe", recipe).post("/v1/molds").then()
                    .statusCode(400).body("type", equalTo("https://layupmold.invalid/problems/malformed-json"));
        }
        service.request().multiPart("part", "beak.stl", PART).multiPart("recipe", "[]").post("/v1/molds").then()
                .statusCode(422).body("errors[0].pointer", equalTo("")).body("errors[0].code", equalTo("wrong-type"));
    }

    @Test
    void theSamePartAndRecipeAgainIsAnsweredFromTheStore() {
        Response first = service.request().header("Prefer", "wait=20").contentType("model/stl")
                .queryParam("recipe", titled("once")).body(PART).post("/v1/molds");
        Response second = service.request().contentType("model/stl")
                .queryParam("recipe", "{ \"tool\": \"female\", \"title\": \"once\" }").body(PART).post("/v1/molds");
        second.then().statusCode(200).body("status", equalTo("done"))
                .body("recipeHash", equalTo(first.path("recipeHash")));
        assertNull(second.path("startedAt"));
    }

    @Test
    void theLastSegmentOfAFileNameIsKept() {
        service.request().multiPart("part", "..\\..//etc/beak.stl", PART, "model/stl").post("/v1/molds").then()
                .body("part.name", equalTo("beak.stl"));
    }

    @Test
    void unfinishedUploadsLeaveNothingInTheList() {
        service.request().multiPart("recipe", "{}").post("/v1/molds").then().statusCode(400)
                .body("type", equalTo("https://layupmold.invalid/problems/part-missing"));
        service.request().contentType("model/stl").post("/v1/molds").then().statusCode(400)
                .body("type", equalTo("https://layupmold.invalid/problems/part-missing"));
        service.request().multiPart("part", "a.stl", PART).multiPart("party", "x").post("/v1/molds").then()
                .statusCode(400).body("detail", containsString("party"));
    }

    @Test
    void theListShowsWhatWasPosted() {
        Response posted = service.request().contentType("model/stl").queryParam("recipe", titled("listed")).body(PART)
                .post("/v1/molds");
        service.request().get("/v1/molds").then().statusCode(200).body("items.id", hasItem(posted.<String>path("id")));
    }
}
