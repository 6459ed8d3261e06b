package layupmold.service.http;

import static org.hamcrest.Matchers.equalTo;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;

import io.restassured.RestAssured;
import io.restassured.response.Response;
import java.util.Arrays;
import layupmold.service.CubeMaker;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class MoldFilesTest {

    private static RunningService service;
    private static String mold;

    @BeforeAll
    static void start() {
        service = RunningService.start(new CubeMaker());
        mold = service.request().header("Prefer", "wait=20").contentType("model/stl").body(Parts.tetrahedron(20))
                .post("/v1/molds").then().statusCode(200).extract().header("Location");
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "/mold.stl", "/mold.3mf", "/report.json"})
    void aCopyThatIsStillGoodIsNotSentAgain(String file) {
        Response first = service.request().get(mold + file);
        first.then().statusCode(200);
        service.request().header("If-None-Match", first.header("ETag")).get(mold + file).then().statusCode(304)
                .header("ETag", first.header("ETag"));
        service.request().header("If-None-Match", "\"another\"").get(mold + file).then().statusCode(200);
    }

    @Test
    void aHeadRequestTellsTheLength() {
        int length = service.request().get(mold + "/mold.stl").asByteArray().length;
        service.request().head(mold + "/mold.stl").then().statusCode(200)
                .header("Content-Length", equalTo(String.valueOf(length)));
    }

    @Test
    void aDownloadCanBeResumed() {
        byte[] whole = service.request().get(mold + "/mold.stl").asByteArray();
        Response rest = RestAssured.given().baseUri("http://127.0.0.1").port(service.port())
                .header("Range", "bytes=100-").get(mold + "/mold.stl");
        assertEquals(206, rest.statusCode());
        assertArrayEquals(Arrays.copyOfRange(whole, 100, whole.length), rest.asByteArray());
    }

    @Test
    void theSamePartAndRecipeGiveTheSameBytesEverywhere() {
        try (RunningService other = RunningService.start(new CubeMaker())) {
            String again = other.request().header("Prefer", "wait=20").contentType("model/stl")
                    .body(Parts.tetrahedron(20)).post("/v1/molds").header("Location");
            for (String file : new String[] {"/mold.stl", "/mold.3mf", "/report.json"}) {
                assertArrayEquals(service.request().get(mold + file).asByteArray(),
                        other.request().get(again + file).asByteArray(), file);
            }
        }
    }

    @Test
    void theDocumentIsServedInBothFormsAndShownAtAPage() {
        service.request().get("/openapi.yaml").then().statusCode(200).contentType("application/yaml");
        service.request().get("/openapi.json").then().statusCode(200).body("openapi", equalTo("3.1.1"));
        for (String path : new String[] {"/docs", "/docs/docs.js", "/webjars/swagger-ui/swagger-ui-bundle.js",
            "/webjars/swagger-ui/swagger-ui.css"}) {
            service.request().get(path).then().statusCode(200);
        }
    }

    @Test
    void theServiceSaysThatItIsWell() {
        service.request().get("/actuator/health").then().statusCode(200).body("status", equalTo("UP"));
    }
}
