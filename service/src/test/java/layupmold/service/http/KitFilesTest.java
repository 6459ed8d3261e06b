package layupmold.service.http;

import static org.hamcrest.Matchers.equalTo;
import static org.hamcrest.Matchers.hasItem;
import static org.hamcrest.Matchers.startsWith;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.restassured.path.json.JsonPath;
import java.io.ByteArrayInputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.util.List;
import java.util.Map;
import javax.xml.parsers.DocumentBuilderFactory;
import layupmold.service.CubeMaker;
import layupmold.service.Parts;
import layupmold.service.RunningService;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** The kit over HTTP, of a dish that the real pipeline makes a mold of. */
class KitFilesTest {

    private static final String RECIPE = """
            {"title":"dish & lid","layup":{"plies":[{"angleDeg":0},{"angleDeg":45},{"weave":"plain","arealWeightGsm":163,
            "fibreDensity":2.56}]},"kit":{"paper":"a3","marginMm":15,"resin":{"like":"vinyl-ester"}}}""";
    private static RunningService service;
    private static String mold;

    @BeforeAll
    static void start() {
        service = RunningService.start(null);
        mold = post(service, RECIPE);
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    private static String post(RunningService to, String recipe) {
        return to.request().header("Prefer", "wait=60").contentType("model/stl").queryParam("recipe", recipe)
                .body(Parts.dish(120)).post("/v1/molds").then().statusCode(200).extract().header("Location");
    }

    @Test
    void theResourceLinksToTheKitOnTheRecipesPaper() {
        service.request().get(mold).then().statusCode(200)
                .body("links.kit", equalTo(mold + "/kit.json"))
                .body("links.templates", equalTo(mold + "/kit/templates-a3.pdf"))
                .body("links.workCard", equalTo(mold + "/kit/work-card.pdf"));
    }

    @Test
    void everyFileThatTheKitNamesIsThereAsSaid() {
        JsonPath kit = service.request().get(mold + "/kit.json").then().statusCode(200)
                .contentType("application/json").body("part", equalTo("dish & lid")).extract().jsonPath();
        List<Map<String, String>> files = kit.getList("files");
        assertEquals(3 + 3 + 2 + 3 + 2 + 1, files.size(), files::toString);
        for (Map<String, String> file : files) {
            service.request().get(mold + "/" + file.get("href")).then().statusCode(200)
                    .contentType(startsWith(file.get("mediaType"))).header("X-Content-Type-Options", "nosniff");
        }
    }

    /**
     * Two plies of 210 g/m² carbon and one of 163 g/m² glass, as much resin by mass: 2 · (210 + 210 + 163) g/m² over
     * the paraboloid z = h r²/R² of R = 60 mm and h = 20 mm, whose area is πR/(6h²) · ((R² + 4h²)^(3/2) − R³)
     * (surface of revolution, any calculus handbook), plus the offset's bit of growth.
     */
    @Test
    void massesFollowFromTheArea() {
        JsonPath kit = service.request().get(mold + "/kit.json").jsonPath();
        double area = Math.PI * 60 / (6 * 400) * (Math.pow(3600 + 1600, 1.5) - Math.pow(60, 3));
        assertEquals(area, kit.getDouble("partMm2"), 0.02 * area);
        assertEquals(1166, kit.getDouble("arealWeightGsm"), 1e-6);
        // REST Assured reads numbers as floats, of seven digits.
        assertEquals(1166e-6 * kit.getDouble("partMm2"), kit.getDouble("partG"), 1e-5);
        assertEquals(kit.getDouble("resin.clothG") * 1.15,
                kit.getDouble("resin.resinG") + kit.getDouble("resin.hardenerG"), 1e-4);
        // The vinyl ester row: 2 parts of hardener to 100 by mass.
        assertEquals(0.02, kit.getDouble("resin.hardenerG") / kit.getDouble("resin.resinG"), 1e-6);
    }

    /** The numbers for a cutting machine are those of the drawing: same corners, same area as the cloth as cut. */
    @Test
    void outlinesAreGivenAsNumbers() {
        JsonPath lines = service.request().get(mold + "/kit/outlines.json").then().statusCode(200).extract().jsonPath();
        JsonPath kit = service.request().get(mold + "/kit.json").jsonPath();
        for (int ply = 0; ply < 3; ply++) {
            List<Float> xy = lines.getList("plies[" + ply + "].outline", Float.class);
            double twice = 0;
            for (int k = 0; k + 3 < xy.size(); k += 2) {
                twice += xy.get(k) * xy.get(k + 3) - xy.get(k + 2) * xy.get(k + 1);
            }
            double cloth = kit.getDouble("plies[" + ply + "].clothMm2");
            assertEquals(cloth, Math.abs(twice) / 2, 1e-3 * cloth);
            assertEquals(4, lines.getList("plies[" + ply + "].notches").size());
        }
    }

    @Test
    void theResinPlanStandsByItself() {
        JsonPath kit = service.request().get(mold + "/kit.json").jsonPath();
        service.request().get(mold + "/kit/resin.json").then().statusCode(200)
                .body("coats.size()", equalTo(kit.getList("resin.coats").size()))
                .body("coats.stage", hasItem("finish"));
    }

    @Test
    void theTemplatesAreOnThePaperAskedFor() throws Exception {
        // ISO 216 and ANSI/ASME Y14.1, in points of 1/72 inch.
        for (Object[] paper : new Object[][] {{"a4", 210, 297}, {"letter", 215.9, 279.4}, {"a3", 297, 420}}) {
            byte[] pdf = service.request().get(mold + "/kit/templates-" + paper[0] + ".pdf").then().statusCode(200)
                    .contentType("application/pdf").extract().asByteArray();
            try (PDDocument document = Loader.loadPDF(pdf)) {
                var box = document.getPage(0).getMediaBox();
                double shorter = Math.min(box.getWidth(), box.getHeight()) * 25.4 / 72;
                double longer = Math.max(box.getWidth(), box.getHeight()) * 25.4 / 72;
                assertEquals(((Number) paper[1]).doubleValue(), shorter, 0.1);
                assertEquals(((Number) paper[2]).doubleValue(), longer, 0.1);
            }
        }
        service.request().get(mold + "/kit/templates-b5.pdf").then().statusCode(404);
    }

    @Test
    void drawingsParse() throws Exception {
        for (String name : new String[] {"ply-1.svg", "ply-3.svg", "cut-layout-1.svg", "cut-layout-2.svg"}) {
            byte[] svg = service.request().get(mold + "/kit/" + name).then().statusCode(200).extract().asByteArray();
            assertEquals("svg", DocumentBuilderFactory.newInstance().newDocumentBuilder()
                    .parse(new ByteArrayInputStream(svg)).getDocumentElement().getTagName());
        }
    }

    @Test
    void whatIsNotThereIsToldAsAProblem() {
        service.request().get(mold + "/kit/ply-4.svg").then().statusCode(404).contentType("application/problem+json");
        service.request().get(mold + "/kit/ply-one.svg").then().statusCode(404);
        service.request().get("/v1/molds/nothing/kit.json").then().statusCode(404);
        service.request().header("Accept", "text/html").get(mold + "/kit.json").then().statusCode(406);
    }

    @Test
    void aCopyThatIsStillGoodIsNotSentAgain() {
        String tag = service.request().get(mold + "/kit/work-card.pdf").header("ETag");
        service.request().header("If-None-Match", tag).get(mold + "/kit/work-card.pdf").then().statusCode(304);
    }

    @Test
    void twoServicesMakeTheSameKit() {
        try (RunningService another = RunningService.start(null)) {
            String again = post(another, RECIPE);
            for (String file : new String[] {"/kit.json", "/kit/templates-a4.pdf", "/kit/ply-2.svg",
                "/kit/shear-1.png", "/kit/work-card.html", "/kit/work-card.pdf",
                "/coupon.json", "/coupon.stl"}) {
                assertArrayEquals(service.request().get(mold + file).asByteArray(),
                        another.request().get(again + file).asByteArray(), file);
            }
        }
    }

    /** A cube that claims to be a mold has no surface to lay cloth on. */
    @Test
    void aMoldWithoutAToolSurfaceGivesAProblemWithItsFinding() {
        try (RunningService cubes = RunningService.start(new CubeMaker())) {
            String cube = cubes.request().header("Prefer", "wait=20").contentType("model/stl")
                    .body(Parts.tetrahedron(20)).post("/v1/molds").header("Location");
            cubes.request().get(cube + "/kit.json").then().statusCode(422)
                    .contentType("application/problem+json").body("findings[0].code", equalTo("no-tool-surface"));
            cubes.request().get(cube + "/report.html").then().statusCode(200);
        }
    }

    @Test
    void theCouponIsAMoldOfItsOwn() {
        JsonPath coupon = service.request().get(mold + "/coupon.json").then().statusCode(200).extract().jsonPath();
        assertTrue(coupon.getDouble("printMinutes") <= 60, coupon.prettify());
        // The place lies on the dish z = h r²/R².
        double r2 = Math.pow(coupon.getDouble("place.x"), 2) + Math.pow(coupon.getDouble("place.y"), 2);
        assertTrue(r2 < 60 * 60, coupon.prettify());
        assertEquals(20 * r2 / 3600, coupon.getDouble("place.z"), 5);
        byte[] stl = service.request().get(mold + "/coupon.stl").then().statusCode(200).contentType("model/stl")
                .extract().asByteArray();
        assertEquals(84 + 50L * ByteBuffer.wrap(stl).order(ByteOrder.LITTLE_ENDIAN).getInt(80), stl.length);
        service.request().get(mold + "/coupon.3mf").then().statusCode(200).contentType("model/3mf");
        service.request().get(mold).then().body("links.coupon", equalTo(mold + "/coupon.json"));
    }

    @Test
    void mistakesInTheKitSectionAreToldWhereTheyAre() {
        service.request().contentType("model/stl").body(Parts.dish(50))
                .queryParam("recipe", "{\"kit\":{\"paper\":\"b5\",\"resin\":{\"potLifeMin\":0},\"roll\":1}}")
                .post("/v1/molds").then().statusCode(422)
                .body("errors.pointer", equalTo(List.of("/kit/paper", "/kit/resin/potLifeMin", "/kit/roll")));
    }

    @Test
    void theKitIsDrapedFromTheStartThatIsAskedFor() {
        String there = post(service, RECIPE.replace("\"kit\":{", "\"kit\":{\"start\":[30,10,5],\"lockingDeg\":12,"));
        JsonPath kit = service.request().get(there + "/kit.json").jsonPath();
        List<Double> transform = service.request().get(there + "/report.json").jsonPath().getList("partToMold", Double.class);
        for (int axis = 0; axis < 2; axis++) {
            double asked = 30 * transform.get(4 * axis) + 10 * transform.get(4 * axis + 1)
                    + 5 * transform.get(4 * axis + 2) + transform.get(4 * axis + 3);
            assertEquals(asked, kit.getDouble("plies[0].start[" + axis + "]"), 1.5);
        }
        assertEquals(12, kit.getDouble("plies[0].lockingDeg"));
        assertTrue(kit.getList("findings.code").contains("shear-beyond-locking"), kit.getString("findings"));
    }
}
