package layupmold.service.http;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.everyItem;
import static org.hamcrest.Matchers.greaterThan;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.hasSize;
import static org.hamcrest.Matchers.lessThan;
import static org.hamcrest.Matchers.not;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.restassured.path.json.JsonPath;
import io.restassured.response.Response;
import java.util.Arrays;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** What becomes of corners too tight for the cloth, from the request to the report of the real pipeline. */
class FilletOverHttpTest {

    private static RunningService service;

    @BeforeAll
    static void start() {
        service = RunningService.start(null);
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    private static Response post(String recipe) {
        return service.request().header("Prefer", "wait=120").multiPart("part", "tray.stl", Parts.tray(60, 24))
                .multiPart("recipe", recipe, "application/json").post("/v1/molds");
    }

    private static JsonPath report(Response done) {
        done.then().statusCode(200).body("status", equalTo("done"));
        return service.request().get(done.<String>path("links.report")).then().statusCode(200).extract().jsonPath();
    }

    @Test
    void cornersAreOnlyReportedUnlessAskedFor() {
        Response usual = post("{}");
        JsonPath report = report(usual);
        assertEquals(false, report.getBoolean("recipe.fillet.fill"));
        assertTrue(report.get("fillet") == null);
        assertTrue(report.getList("findings.code").contains("cloth-bridges"));
        // In a square edge a ball of radius r stands (√2 - 1) r off.
        assertTrue(report.getDouble("fabric.bridges[0].gapMm") > 0.3 * report.getDouble("fabric.clothRadiusMm"));
        assertArrayEquals(stl(usual), stl(post("{\"fillet\":{\"fill\":false,\"radiusMm\":3}}")));
    }

    /** Triangles of the mold, without the header, which names the recipe. */
    private static byte[] stl(Response done) {
        byte[] file = service.request().get(done.<String>path("links.stl")).then().statusCode(200).extract().asByteArray();
        return Arrays.copyOfRange(file, 80, file.length);
    }

    /**
     * A floor and two walls that lean by a meet in corners: there the ball's centre is r above the floor and
     * w = r (1 - sin a) / cos a off the walls' feet, √(r² + 2 w²) from the corner. Steeper corners of the flange are filled
     * deeper, up to (√3 - 1) r where three planes meet at right angles.
     */
    @Test
    void cornersAreFilledToWhatTheClothFollows() {
        Response done = post("{\"fillet\":{\"fill\":true}}");
        JsonPath report = report(done);
        double cloth = report.getDouble("fabric.clothRadiusMm");
        assertEquals(cloth, report.getDouble("fillet.radiusMm"), 1e-9);
        double radius = report.getDouble("fillet.toolRadiusMm");
        assertTrue(radius >= cloth && radius < 1.1 * cloth, () -> "filled to " + radius);
        double depth = report.getDouble("fillet.deepestMm");
        double lean = Math.atan(1 / 8.0);
        double wall = radius * (1 - Math.sin(lean)) / Math.cos(lean);
        double onFloor = Math.sqrt(radius * radius + 2 * wall * wall) - radius;
        assertTrue(depth > onFloor - 0.02 && depth < (Math.sqrt(3) - 1) * radius + 0.02, () -> "filled " + depth);
        service.request().get(done.<String>path("links.report")).then()
                .body("fillet.places", hasSize(greaterThan(0))).body("fillet.left", hasSize(0))
                .body("findings.code", hasItem("corners-filled")).body("findings.code", not(hasItem("corners-left")))
                // What is left are the marks of the trim line.
                .body("fabric.bridges.gapMm", everyItem(lessThan(0.15f)));
        String page = service.request().get(done.<String>path("links.page")).asString();
        assertTrue(page.contains("Corners filled"), "the page does not tell");
    }

    @Test
    void theRadiusCanBeAsked() {
        JsonPath report = report(post("{\"fillet\":{\"fill\":true,\"radiusMm\":3}}"));
        assertEquals(3, report.getDouble("fillet.radiusMm"), 1e-9);
        assertTrue(report.getDouble("fillet.deepestMm") > 1.7, () -> "filled " + report.getDouble("fillet.deepestMm"));
    }

    @Test
    void radiiOutOfRangeAreRefusedAtTheirPointer() {
        post("{\"fillet\":{\"fill\":true,\"radiusMm\":0.01}}").then().statusCode(422)
                .body("errors.pointer", hasItem("/fillet/radiusMm"));
        post("{\"fillet\":{\"fil\":true}}").then().statusCode(422).body("errors.pointer", hasItem("/fillet/fil"));
    }
}
