package layupmold.service.http;

import static org.awaitility.Awaitility.await;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.greaterThan;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.lessThan;
import static org.hamcrest.Matchers.not;
import static org.hamcrest.Matchers.oneOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import java.time.Duration;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.junit.jupiter.api.Test;

/** A recipe that asks for a shell gives one, through the real pipeline. */
class ShellMoldTest {

    private static final String RECIPE = """
            {"pull": [0, 0, 1], "flange": {"trimLineDepthMm": 0}, "body": {"kind": "shell", "wallMm": 2.4, "feet": 3,
             "screws": {"count": 2, "diameterMm": 4}}}
            """;

    @Test
    void aShellOnThreeFeetIsPostedForAndReported() {
        try (RunningService service = RunningService.start(null)) {
            String mold = service.request().multiPart("part", "dish.stl", Parts.dish(60))
                    .multiPart("recipe", RECIPE, "application/json").post("/v1/molds")
                    .then().statusCode(202).extract().header("Location");
            await().atMost(Duration.ofMinutes(4)).until(
                    () -> service.request().get(mold).path("status"), not(oneOf("queued", "running")));
            Response done = service.request().get(mold);
            done.then().statusCode(200).body("status", equalTo("done"));
            JsonPath report = service.request().get(done.<String>path("links.report")).then().statusCode(200)
                    .body("recipe.body.feet", equalTo(3)).body("recipe.body.notches.count", equalTo(2))
                    .body("body.kind", equalTo("shell")).body("body.feet", equalTo(3))
                    .body("body.notches", equalTo(2)).body("body.screwHoles", equalTo(2))
                    .body("body.leastWallMm", greaterThan(2.39f)).body("body.tipDeg", greaterThan(5f))
                    .body("findings.code", hasItem("shell-needs-supports")).extract().jsonPath();
            assertTrue(report.getDouble("body.volumeMm3") < 0.8 * report.getDouble("body.blockVolumeMm3"));
            service.request().header("Prefer", "wait=20").multiPart("part", "dish.stl", Parts.dish(60))
                    .multiPart("recipe", "{\"body\": {\"notches\": {\"count\": 99}}}", "application/json").post("/v1/molds")
                    .then().statusCode(lessThan(500)).body("errors[0].pointer", equalTo("/body/notches/count"));
        }
    }
}
