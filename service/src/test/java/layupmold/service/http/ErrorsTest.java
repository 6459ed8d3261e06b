package layupmold.service.http;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.net.Socket;
import java.nio.charset.StandardCharsets;
import layupmold.service.CubeMaker;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Every error is told in the form of RFC 9457, wherever it arises. */
class ErrorsTest {

    private static final byte[] PART = Parts.tetrahedron(30);
    private static RunningService service;

    @BeforeAll
    static void start() {
        service = RunningService.start(new CubeMaker(),
                "layupmold.upload.max-part=1MB", "layupmold.upload.max-recipe=1KB", "layupmold.upload.deadline=1s",
                "server.tomcat.connection-timeout=2s");
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    @ParameterizedTest
    @ValueSource(strings = {
        "/v1/molds/0c2f6f0e-6f3b-4f0c-9a52-0f6a5b1c7d11", "/v1/molds/x/mold.stl", "/v1/molds/x/mold.3mf",
        "/v1/molds/x/report.json", "/v1/molds/x/events", "/v1/nothing", "/favicon.ico"})
    void whatIsNotThereIs404(String path) {
        service.request().get(path).then().statusCode(404).contentType("application/problem+json")
                .body("type", equalTo("https://layupmold.invalid/problems/not-found")).body("status", equalTo(404));
    }

    @Test
    void theWrongMethodIs405AndSaysWhichWork() {
        service.request().put("/v1/molds").then().statusCode(405).contentType("application/problem+json")
                .header("Allow", containsString("POST")).body("status", equalTo(405));
        service.request().delete("/openapi.yaml").then().statusCode(405).contentType("application/problem+json");
    }

    @ParameterizedTest
    @CsvSource({"/v1/molds", "/openapi.yaml", "/openapi.json"})
    void whatCannotBeGivenIs406(String path) {
        service.request().accept("image/png").get(path).then().statusCode(406)
                .contentType("application/problem+json");
    }

    @Test
    void aPostThatAcceptsNothingWeHaveIsRefusedBeforeItIsStored() {
        service.request().accept("model/stl;q=0, text/html").contentType("model/stl").body(PART).post("/v1/molds").then()
                .statusCode(406).body("detail", containsString("model/3mf"));
    }

    @Test
    void anAcceptHeaderThatCannotBeReadIs400() {
        service.request().header("Accept", "model/").get("/v1/molds").then().statusCode(400);
    }

    @Test
    void aPartThatIsTooLargeIs413() {
        service.request().contentType("model/stl").body(new byte[(1 << 20) + 1]).post("/v1/molds").then().statusCode(413)
                .body("type", equalTo("https://layupmold.invalid/problems/part-too-large"));
        service.request().multiPart("part", "a.stl", new byte[(1 << 20) + 1]).post("/v1/molds").then().statusCode(413);
        service.request().multiPart("part", "a.stl", PART).multiPart("recipe", " ".repeat(1025)).post("/v1/molds").then()
                .statusCode(413);
    }

    @ParameterizedTest
    @ValueSource(strings = {"text/html", "application/json", "multipart/mixed"})
    void aBodyThatIsNoPartIs415(String type) {
        service.request().contentType(type).body(PART).post("/v1/molds").then().statusCode(415)
                .contentType("application/problem+json").body("detail", containsString("model/stl"));
    }

    @Test
    void aPlainFormIs415() {
        service.request().formParam("part", "beak").post("/v1/molds").then().statusCode(415);
    }

    @ParameterizedTest
    @ValueSource(strings = {
        "multipart/form-data", "multipart/form-data; boundary=x", "multipart/form-data; boundary=\"\""})
    void aFormThatCannotBeReadIs400(String type) {
        service.request().header("Content-Type", type).body("no boundary here".getBytes(StandardCharsets.UTF_8))
                .post("/v1/molds").then().statusCode(400).contentType("application/problem+json");
    }

    @ParameterizedTest
    @ValueSource(strings = {"status=finished", "limit=0", "limit=201", "limit=many", "cursor=%00", "cursor=bm90b3Vycw"})
    void aListParameterThatMakesNoSenseIs400(String query) {
        service.request().urlEncodingEnabled(false).get("/v1/molds?" + query).then().statusCode(400)
                .contentType("application/problem+json");
    }

    @Test
    void aKeyThatIsNotPrintableIs400() {
        service.request().header("Idempotency-Key", "two words").contentType("model/stl").body(PART).post("/v1/molds")
                .then().statusCode(400);
    }

    @Test
    void aFileThatIsNotReadyIs409() {
        String id = service.request().contentType("model/stl").queryParam("recipe", "{\"title\":\"slow 9\"}").body(PART)
                .post("/v1/molds").then().statusCode(202).extract().path("id");
        service.request().get("/v1/molds/" + id + "/mold.stl").then().statusCode(409)
                .body("instance", equalTo("/v1/molds/" + id));
    }

    @Test
    void aRequestRefusedByTheServerItselfIsAProblemToo() throws IOException {
        String answer = send("GET /v1/molds?recipe={ HTTP/1.1\r\nHost: a\r\nConnection: close\r\n\r\n", "");
        assertTrue(answer.startsWith("HTTP/1.1 400"), answer);
        assertTrue(answer.contains("application/problem+json") && answer.contains("\"status\":400"), answer);
    }

    @Test
    void anUploadThatTricklesIsEndedAt408() throws IOException {
        String answer = send("POST /v1/molds HTTP/1.1\r\nHost: a\r\nConnection: close\r\nContent-Type: model/stl\r\n"
                + "Content-Length: 100000\r\n\r\n", "drop by drop, byte by byte");
        assertTrue(answer.startsWith("HTTP/1.1 408"), answer);
    }

    @Test
    void anUploadThatStallsIsEndedAt408() throws IOException {
        String answer = send("POST /v1/molds HTTP/1.1\r\nHost: a\r\nConnection: close\r\nContent-Type: model/stl\r\n"
                + "Content-Length: 100000\r\n\r\n", "drop");
        assertTrue(answer.startsWith("HTTP/1.1 408"), answer);
    }

    private static String send(String head, String slowly) throws IOException {
        try (Socket socket = new Socket("127.0.0.1", service.port())) {
            socket.setSoTimeout(10_000);
            socket.getOutputStream().write(head.getBytes(StandardCharsets.US_ASCII));
            for (byte drop : slowly.getBytes(StandardCharsets.US_ASCII)) {
                socket.getOutputStream().write(drop);
                socket.getOutputStream().flush();
                Thread.sleep(60);
            }
            InputStream answer = socket.getInputStream();
            return new String(answer.readAllBytes(), StandardCharsets.UTF_8);
        } catch (InterruptedException e) {
            throw new IllegalStateException(e);
        }
    }
}
