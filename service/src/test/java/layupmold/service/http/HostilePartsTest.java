package layupmold.service.http;

import static org.hamcrest.Matchers.containsString;
import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.oneOf;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;

import com.sun.net.httpserver.HttpServer;
import io.restassured.response.ValidatableResponse;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Parts made to hurt, posted to the real reader: each gets a problem, and the service lives on. */
@Timeout(240)
class HostilePartsTest {

    private static final String CORE = "http://schemas.microsoft.com/3dmanufacturing/core/2015/02";

    @TempDir
    private static Path folder;
    private static RunningService service;

    @BeforeAll
    static void start() {
        service = RunningService.start(null, "layupmold.upload.max-part=1MB",
                "layupmold.store.folder=" + folder.resolve("deep/down/blobs"));
    }

    @AfterAll
    static void stop() {
        service.request().get("/actuator/health/readiness").then().statusCode(200);
        service.close();
    }

    private static ValidatableResponse post(byte[] part) {
        return service.request().header("Prefer", "wait=120").contentType("application/octet-stream").body(part)
                .post("/v1/molds").then();
    }

    private static void assertRefused(byte[] part, String code) {
        post(part).statusCode(422).body("type", equalTo("https://layupmold.invalid/problems/part-rejected"))
                .body("findings[0].stage", equalTo("read")).body("findings[0].code", equalTo(code));
    }

    private static byte[] threeMf(String model, Map<String, byte[]> more) throws IOException {
        Map<String, byte[]> entries = new LinkedHashMap<>();
        entries.put("[Content_Types].xml", utf8("<Types xmlns=\"http://schemas.openxmlformats.org/package/2006/content-types\">"
                + "<Default Extension=\"rels\" ContentType=\"application/vnd.openxmlformats-package.relationships+xml\"/>"
                + "<Default Extension=\"model\" ContentType=\"application/vnd.ms-package.3dmanufacturing-3dmodel+xml\"/></Types>"));
        entries.put("_rels/.rels", utf8("<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\">"
                + "<Relationship Target=\"/3D/3dmodel.model\" Id=\"r0\" "
                + "Type=\"http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel\"/></Relationships>"));
        entries.put("3D/3dmodel.model", utf8(model));
        entries.putAll(more);
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(bytes)) {
            for (Map.Entry<String, byte[]> entry : entries.entrySet()) {
                zip.putNextEntry(new ZipEntry(entry.getKey()));
                zip.write(entry.getValue());
            }
        }
        return bytes.toByteArray();
    }

    private static byte[] utf8(String text) {
        return text.getBytes(StandardCharsets.UTF_8);
    }

    private static String model(String resources, int item) {
        return "<model unit=\"millimeter\" xmlns=\"" + CORE + "\"><resources>" + resources
                + "</resources><build><item objectid=\"" + item + "\"/></build></model>";
    }

    private static String tetrahedron(int id) {
        return "<object id=\"" + id + "\" type=\"model\"><mesh><vertices><vertex x=\"0\" y=\"0\" z=\"0\"/>"
                + "<vertex x=\"9\" y=\"0\" z=\"0\"/><vertex x=\"0\" y=\"9\" z=\"0\"/><vertex x=\"0\" y=\"0\" z=\"9\"/></vertices>"
                + "<triangles><triangle v1=\"0\" v2=\"2\" v3=\"1\"/><triangle v1=\"0\" v2=\"1\" v3=\"3\"/>"
                + "<triangle v1=\"1\" v2=\"2\" v3=\"3\"/><triangle v1=\"0\" v2=\"3\" v3=\"2\"/></triangles></mesh></object>";
    }

    @Test
    void aHeaderOfFourBillionTriangles() {
        byte[] part = Parts.tetrahedron(30);
        ByteBuffer.wrap(part).order(ByteOrder.LITTLE_ENDIAN).putInt(80, -1);
        assertRefused(part, "truncated");
    }

    @Test
    void aPlaceThatIsNoNumber() {
        byte[] part = Parts.tetrahedron(30);
        ByteBuffer.wrap(part).order(ByteOrder.LITTLE_ENDIAN).putFloat(84 + 50 + 12, Float.NaN);
        post(part).statusCode(422).body("findings[0].code", equalTo("coordinate-not-finite"))
                .body("findings[0].message", containsString("triangle 1"));
    }

    @Test
    void anEntityThatWouldFetch() throws IOException {
        AtomicInteger fetched = new AtomicInteger();
        HttpServer bait = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        bait.createContext("/", exchange -> {
            fetched.incrementAndGet();
            exchange.sendResponseHeaders(200, -1);
            exchange.close();
        });
        bait.start();
        try {
            String address = "http://127.0.0.1:" + bait.getAddress().getPort() + "/";
            assertRefused(threeMf("<!DOCTYPE model [<!ENTITY e SYSTEM \"" + address + "e\">]>" + model("&e;", 1), Map.of()),
                    "bad-xml");
            assertRefused(threeMf("<!DOCTYPE model SYSTEM \"" + address + "dtd\">" + model(tetrahedron(1), 1), Map.of()),
                    "bad-xml");
            assertEquals(0, fetched.get());
        } finally {
            bait.stop(0);
        }
    }

    @Test
    void aModelThatUnfoldsWithoutEnd() throws IOException {
        byte[] bomb = threeMf(model(" ".repeat(8 << 20) + tetrahedron(1), 1), Map.of());
        assertFalse(bomb.length > 1 << 16, "the bomb is small: " + bomb.length);
        assertRefused(bomb, "unfolds-too-large");
    }

    @Test
    void componentsThatMultiply() throws IOException {
        StringBuilder resources = new StringBuilder(tetrahedron(1));
        for (int level = 2; level <= 10; level++) {
            resources.append("<object id=\"").append(level).append("\" type=\"model\"><components>")
                    .append(("<component objectid=\"" + (level - 1) + "\"/>").repeat(10)).append("</components></object>");
        }
        assertRefused(threeMf(model(resources.toString(), 10), Map.of()), "bad-structure");
    }

    @Test
    void namesThatLeadOutOfTheArchive() throws IOException {
        post(threeMf(model(tetrahedron(1), 1), Map.of("../../../escaped.model", utf8("x"), "/escaped-too.model", utf8("x"))))
                .statusCode(oneOf(200, 422));
        assertFalse(Files.exists(folder.resolve("escaped.model")) || Files.exists(Path.of("/escaped-too.model"))
                || Files.exists(folder.resolve("deep/escaped.model")) || Files.exists(Path.of("../escaped.model")));
        service.request().header("Prefer", "wait=60").multiPart("part", "../../../escaped.stl", Parts.tetrahedron(29))
                .post("/v1/molds").then().statusCode(oneOf(200, 422));
        assertFalse(Files.exists(folder.resolve("escaped.stl")));
    }
}
