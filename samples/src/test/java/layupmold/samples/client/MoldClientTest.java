package layupmold.samples.client;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.URI;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.atomic.AtomicInteger;
import layupmold.api.mold.MoldResource;
import layupmold.api.mold.MoldStatus;
import layupmold.api.recipe.MoldRecipe;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The client against answers as the contract's examples have them. */
class MoldClientTest {

    private HttpServer server;
    private MoldClient client;
    private String posted;
    private String contentType;

    @TempDir
    private Path folder;

    @BeforeEach
    void start() throws IOException {
        server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.start();
        client = new MoldClient(URI.create("http://127.0.0.1:" + server.getAddress().getPort() + "/"));
    }

    @AfterEach
    void stop() {
        server.stop(0);
    }

    @Test
    void postsPartAndRecipeAsForm() throws Exception {
        answer("/v1/molds", 202, resource("queued", 0));
        Path part = Files.writeString(folder.resolve("vis\"or.stl"), "solid x\nendsolid x\n");
        MoldRecipe recipe = new MoldRecipe("visor", null, null, null, null, null, null, 0.1, null, null, null, null, null, null,
                null);
        MoldResource mold = client.post(part, recipe, "key-1");
        assertEquals("m1", mold.id());
        String boundary = contentType.substring(contentType.indexOf("boundary=") + 9);
        assertEquals("--" + boundary + "\r\n"
                + "Content-Disposition: form-data; name=\"part\"; filename=\"vis%22or.stl\"\r\n"
                + "Content-Type: application/octet-stream\r\n\r\nsolid x\nendsolid x\n\r\n"
                + "--" + boundary + "\r\n"
                + "Content-Disposition: form-data; name=\"recipe\"\r\n"
                + "Content-Type: application/json\r\n\r\n{\"title\":\"visor\",\"releaseMm\":0.1}\r\n"
                + "--" + boundary + "--\r\n", posted);
    }

    @Test
    void tellsEveryChangeOnce() throws Exception {
        String[] states = {resource("running", 10), resource("running", 10), resource("running", 60),
            resource("done", 100)};
        AtomicInteger asked = new AtomicInteger();
        server.createContext("/v1/molds/m1", exchange -> send(exchange, 200, states[asked.getAndIncrement()]));
        answer("/v1/molds", 202, resource("queued", 0));
        Path part = Files.writeString(folder.resolve("part.stl"), "x");
        List<Integer> seen = new ArrayList<>();
        MoldResource end = client.await(client.post(part, MoldRecipe.defaults(), null),
                now -> seen.add(now.percent()));
        assertEquals(MoldStatus.DONE, end.status());
        assertEquals(List.of(0, 10, 60, 100), seen);
    }

    @Test
    void saysWhatTheServiceRefused() throws Exception {
        answer("/v1/molds", 422, "{\"type\":\"urn:layupmold:problem:recipe\",\"title\":\"Recipe not accepted\","
                + "\"status\":422,\"detail\":\"1 field cannot be accepted\",\"errors\":[{\"pointer\":\"/flange/widthMm\","
                + "\"code\":\"out-of-range\",\"detail\":\"must be at least 1\"}],\"findings\":[]}");
        Path part = Files.writeString(folder.resolve("part.stl"), "x");
        ServiceProblem problem = assertThrows(ServiceProblem.class,
                () -> client.post(part, MoldRecipe.defaults(), null));
        assertTrue(problem.getMessage().contains("/flange/widthMm: must be at least 1"), problem.getMessage());
    }

    @Test
    void fileAppearsOnlyWhenWhole() throws Exception {
        answer("/v1/molds/m1/mold.stl", 200, "mesh");
        answer("/v1/molds/m2/mold.stl", 502, "<html>not ours</html>");
        client.download("/v1/molds/m1/mold.stl", folder.resolve("a/mold.stl"));
        assertArrayEquals("mesh".getBytes(StandardCharsets.UTF_8), Files.readAllBytes(folder.resolve("a/mold.stl")));
        assertThrows(ServiceProblem.class, () -> client.download("/v1/molds/m2/mold.stl", folder.resolve("b/mold.stl")));
        try (var left = Files.list(folder.resolve("b"))) {
            assertFalse(left.findAny().isPresent());
        }
    }

    private void answer(String path, int status, String body) {
        server.createContext(path, exchange -> send(exchange, status, body));
    }

    private void send(HttpExchange exchange, int status, String body) throws IOException {
        if (exchange.getRequestMethod().equals("POST")) {
            contentType = exchange.getRequestHeaders().getFirst("Content-Type");
            posted = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
        }
        byte[] bytes = body.getBytes(StandardCharsets.UTF_8);
        exchange.sendResponseHeaders(status, bytes.length);
        exchange.getResponseBody().write(bytes);
        exchange.close();
    }

    private static String resource(String status, int percent) {
        return "{\"id\":\"m1\",\"status\":\"" + status + "\",\"percent\":" + percent
                + ",\"links\":{\"self\":\"/v1/molds/m1\"}}";
    }
}
