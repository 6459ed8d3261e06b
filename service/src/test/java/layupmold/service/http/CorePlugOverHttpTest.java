package layupmold.service.http;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.greaterThanOrEqualTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.nullValue;

import io.restassured.response.Response;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** A recipe's openings, from the request to the report and the kit of the real pipeline. */
class CorePlugOverHttpTest {

    private static RunningService service;

    @BeforeAll
    static void start() {
        service = RunningService.start(null);
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    private static Response post(String openings) {
        return service.request().header("Prefer", "wait=120").multiPart("part", "ring.stl", Parts.openDish(80))
                .multiPart("recipe", "{\"openings\":" + openings + "}", "application/json").post("/v1/molds");
    }

    @Test
    void anOpeningIsPluggedAndTheReportTellsItsFigures() {
        Response done = post("{\"kind\":\"core-plug\",\"plugHeightMm\":5,\"plugDraftDeg\":4}");
        done.then().statusCode(200).body("status", equalTo("done"));
        service.request().get(done.<String>path("links.report")).then().statusCode(200)
                .body("recipe.openings.kind", equalTo("core-plug"))
                .body("openings.plugged", equalTo(1)).body("openings.capped", equalTo(0))
                .body("openings.leastPlugRiseMm", greaterThanOrEqualTo(5.6f))
                .body("openings.leastPlugDraftDeg", greaterThanOrEqualTo(3.98f))
                .body("findings.code", hasItem("core-plugs"));
        service.request().get(done.header("Location") + "/kit.json").then().statusCode(200);
    }

    @Test
    void openingsAreCappedUnlessAskedOtherwise() {
        Response done = post("{}");
        service.request().get(done.<String>path("links.report")).then().statusCode(200)
                .body("recipe.openings.kind", equalTo("cap")).body("openings.capped", equalTo(1))
                .body("openings.leastPlugRiseMm", nullValue());
    }

    @Test
    void whatAPlugCannotBeIsRefusedAtItsPointer() {
        post("{\"kind\":\"bung\",\"plugDraftDeg\":0.1}").then().statusCode(422)
                .body("errors.pointer", hasItem("/openings/kind"))
                .body("errors.pointer", hasItem("/openings/plugDraftDeg"));
    }
}
