package layupmold.service.http;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.startsWith;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.restassured.response.Response;
import java.io.ByteArrayInputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.concurrent.CompletableFuture;
import javax.imageio.ImageIO;
import layupmold.service.CubeMaker;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

class LookFilesTest {

    private static final CubeMaker MAKER = new CubeMaker();
    private static RunningService service;
    private static String mold;

    @BeforeAll
    static void start() {
        service = RunningService.start(MAKER);
        mold = post("heron & crown");
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    private static String post(String title) {
        return service.request().header("Prefer", "wait=20").contentType("model/stl").queryParam("recipe", "{\"title\":\"" + title + "\"}")
                .body(Parts.tetrahedron(20)).post("/v1/molds").then().statusCode(200).extract().header("Location");
    }

    @Test
    void theResourceLinksToThePageAndTheModel() {
        service.request().get(mold).then().statusCode(200)
                .body("links.page", equalTo(mold + "/report.html")).body("links.model", equalTo(mold + "/mold.glb"));
    }

    @Test
    void thePageIsHtmlThatCarriesItsPicturesAndFetchesNothing() {
        Response page = service.request().get(mold + "/report.html");
        page.then().statusCode(200).contentType(startsWith("text/html"))
                .header("X-Content-Type-Options", "nosniff").body(containsString("default-src 'none'"));
        assertTrue(page.asString().contains("data:image/png;base64,"));
    }

    @Test
    void theModelIsBinaryGltf() {
        byte[] glb = service.request().get(mold + "/mold.glb").then().statusCode(200)
                .contentType("model/gltf-binary").extract().asByteArray();
        // Magic and version of glTF 2.0, section 4.4.2.
        assertEquals("glTF", new String(glb, 0, 4, StandardCharsets.US_ASCII));
        assertEquals(2, ByteBuffer.wrap(glb).order(ByteOrder.LITTLE_ENDIAN).getInt(4));
        assertEquals(glb.length, ByteBuffer.wrap(glb).order(ByteOrder.LITTLE_ENDIAN).getInt(8));
    }

    @Test
    void picturesCanBeHadByThemselves() throws Exception {
        for (String name : new String[] {"part", "kept-face", "mold-above", "mold-below"}) {
            byte[] png = service.request().get(mold + "/pictures/" + name + ".png").then().statusCode(200)
                    .contentType("image/png").extract().asByteArray();
            assertEquals(1600, ImageIO.read(new ByteArrayInputStream(png)).getWidth());
        }
    }

    @Test
    void aCopyThatIsStillGoodIsNotSentAgain() {
        String tag = service.request().get(mold + "/report.html").header("ETag");
        service.request().header("If-None-Match", tag).get(mold + "/report.html").then().statusCode(304);
    }

    @Test
    void whatIsNotThereIsToldAsAProblem() {
        service.request().get(mold + "/pictures/nothing.png").then().statusCode(404)
                .contentType("application/problem+json");
        service.request().get("/v1/molds/nothing/report.html").then().statusCode(404);
        service.request().header("Accept", "application/json").get(mold + "/report.html").then().statusCode(406);
    }

    @Test
    void itIsMadeOnceHoweverManyAskAtOnce() {
        String other = post("asked by many");
        int before = MAKER.finished.get("asked by many").get();
        CompletableFuture<?>[] asking = new CompletableFuture<?>[4];
        for (int i = 0; i < asking.length; i++) {
            asking[i] = CompletableFuture.runAsync(
                    () -> service.request().get(other + "/report.html").then().statusCode(200));
        }
        CompletableFuture.allOf(asking).join();
        assertEquals(before + 1, MAKER.finished.get("asked by many").get());
    }

    @Test
    void twoServicesShowTheSame() {
        try (RunningService another = RunningService.start(new CubeMaker())) {
            String again = another.request().header("Prefer", "wait=20").contentType("model/stl")
                    .queryParam("recipe", "{\"title\":\"heron & crown\"}").body(Parts.tetrahedron(20)).post("/v1/molds")
                    .header("Location");
            for (String file : new String[] {"/report.html", "/mold.glb", "/pictures/mold-above.png"}) {
                assertArrayEquals(service.request().get(mold + file).asByteArray(),
                        another.request().get(again + file).asByteArray(), file);
            }
        }
    }
}
