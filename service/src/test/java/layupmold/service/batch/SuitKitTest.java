package layupmold.service.batch;

import static org.hamcrest.Matchers.equalTo;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.restassured.path.json.JsonPath;
import java.io.ByteArrayInputStream;
import java.util.List;
import java.util.Map;
import javax.xml.parsers.DocumentBuilderFactory;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The kits of a suit added up, over HTTP: a small dish twice, a large one, and a part that gives no mold. */
class SuitKitTest {

    private static RunningService service;
    private static String batch;

    @BeforeAll
    static void start() {
        service = RunningService.start(null);
        batch = post("""
                {"title":"Dishes","parts":[{"name":"small","file":"small.stl","quantity":2},
                {"name":"large","file":"large.stl","recipe":{"layup":{"plies":[{},{"fibre":"e-glass"}]}}},
                {"name":"nothing","file":"nothing.stl"}]}""");
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    private static String post(String manifest) {
        SuitZips zip = SuitZips.with("suit.json", manifest.getBytes()).and("small.stl", Parts.dish(60))
                .and("large.stl", Parts.dish(110)).and("nothing.stl", "no mesh at all");
        return service.request().header("Prefer", "wait=120").contentType("application/zip").body(zip.bytes())
                .post("/v1/batches").then().statusCode(200).body("status", equalTo("incomplete"))
                .extract().header("Location");
    }

    private static JsonPath kitOf(JsonPath resource, int part) {
        return service.request().get(resource.getString("parts[" + part + "].mold") + "/kit.json").jsonPath();
    }

    @Test
    void theSuitIsTheSumOfItsPieces() {
        JsonPath resource = service.request().get(batch).then().body("links.kit", equalTo(batch + "/kit.json"))
                .extract().jsonPath();
        JsonPath suit = service.request().get(batch + "/kit.json").then().statusCode(200)
                .body("parts", equalTo(List.of("small 1", "small 2", "large")))
                .body("missing", equalTo(List.of("nothing"))).extract().jsonPath();
        JsonPath small = kitOf(resource, 0);
        JsonPath large = kitOf(resource, 1);
        // Four plies of carbon on small pieces and one on the large one share a roll; its ply of glass has another.
        assertEquals(List.of(5, 1), suit.getList("cloths.pieces"));
        assertTrue(suit.getDouble("cloths[0].lengthMm") <= 2 * small.getDouble("cloths[0].lengthMm")
                + large.getDouble("cloths[0].lengthMm"), suit.prettify());
        assertEquals(2 * small.getDouble("resin.resinG") + large.getDouble("resin.resinG"),
                suit.getDouble("resins[0].resinG"), 1e-3);
        assertEquals(2 * small.getDouble("resin.finishHardenerG") + large.getDouble("resin.finishHardenerG"),
                suit.getDouble("resins[1].hardenerG"), 1e-3);
        assertEquals(2 * small.getDouble("partMm2") + large.getDouble("partMm2"), suit.getDouble("laminateMm2"), 0.1);
    }

    @Test
    void everyFileThatItNamesIsThere() throws Exception {
        List<Map<String, String>> files = service.request().get(batch + "/kit.json").jsonPath().getList("files");
        assertEquals(4, files.size());
        for (Map<String, String> file : files) {
            byte[] bytes = service.request().get(batch + "/" + file.get("href")).then().statusCode(200)
                    .extract().asByteArray();
            if (file.get("href").endsWith(".svg")) {
                DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(new ByteArrayInputStream(bytes));
            }
            if (file.get("href").endsWith(".pdf")) {
                try (PDDocument document = Loader.loadPDF(bytes)) {
                    String words = new PDFTextStripper().getText(document).replaceAll("\\s+", " ");
                    assertTrue(words.contains("small 1, small 2, large"), words);
                    assertTrue(words.contains("210 g/m² carbon 2/2 twill"), words);
                    assertTrue(words.contains("210 g/m² e-glass 2/2 twill"), words);
                }
            }
        }
    }

    @Test
    void whatIsNotThereIsToldAsAProblem() {
        service.request().get(batch + "/kit/cut-layout-3.svg").then().statusCode(404);
        service.request().get("/v1/batches/nothing/kit.json").then().statusCode(404);
        service.request().header("Accept", "text/html").get(batch + "/kit.json").then().statusCode(406);
    }
}
