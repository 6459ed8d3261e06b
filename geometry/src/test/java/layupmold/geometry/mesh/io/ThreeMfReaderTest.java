package layupmold.geometry.mesh.io;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.Map;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.recipe.LengthUnit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Rules are those of the 3MF Core Specification 1.3 (from memory). */
class ThreeMfReaderTest {

    private static final String SOLID = "<object id=\"1\">" + ThreeMfFiles.TETRAHEDRON + "</object>";

    private static PartFile read(String model) {
        return Readings.read(ThreeMfFiles.file(model));
    }

    private static PartFile read(String resources, String build) {
        return read(ThreeMfFiles.model("", resources, build));
    }

    private static void assertRefused(String model, String code, String words) {
        assertRefused(ThreeMfFiles.file(model), code, words);
    }

    private static void assertRefused(byte[] bytes, String code, String words) {
        Finding finding = Readings.refusal(bytes);
        assertEquals(code, finding.code(), finding.message());
        assertTrue(finding.message().contains(words), finding.message());
    }

    @ParameterizedTest
    @CsvSource({"micron,MICRON", "millimeter,MM", "centimeter,CM", "inch,INCH", "foot,FOOT", "meter,M"})
    void unitsOfTheSpecification(String written, LengthUnit unit) {
        PartFile file = read(ThreeMfFiles.plainModel().replace("millimeter", written));
        assertEquals(unit, file.unit());
        assertEquals(1.0 / 6, file.mesh().volume(), 1e-15);
    }

    @Test
    void millimetreIsTheDefault() {
        PartFile file = read(SOLID, "<item objectid=\"1\"/>");
        assertEquals(LengthUnit.MM, file.unit());
        assertEquals("3mf", file.format());
        assertRefused(ThreeMfFiles.plainModel().replace("millimeter", "furlong"), "bad-xml", "furlong");
    }

    /** x' = M^T x + t with the matrix written row by row, as in section 3.3 of the specification. */
    @Test
    void transformsAreRowVectorsTimesMatrix() {
        PartFile file = read(SOLID, "<item objectid=\"1\" transform=\"0 2 0 0 0 3 4 0 0 10 20 30\"/>");
        double[] xyz = file.mesh().xyz();
        assertArrayEquals(new double[] {10, 20, 30}, Arrays.copyOfRange(xyz, 0, 3));
        assertArrayEquals(new double[] {10, 22, 30}, Arrays.copyOfRange(xyz, 3, 6));
        assertArrayEquals(new double[] {10, 20, 33}, Arrays.copyOfRange(xyz, 6, 9));
        assertArrayEquals(new double[] {14, 20, 30}, Arrays.copyOfRange(xyz, 9, 12));
        assertEquals(24.0 / 6, file.mesh().volume(), 1e-12);
    }

    @Test
    void mirroredObjectsStillFaceOutward() {
        PartFile file = read(SOLID, "<item objectid=\"1\" transform=\"-1 0 0 0 1 0 0 0 1 0 0 0\"/>");
        assertEquals(1.0 / 6, file.mesh().volume(), 1e-15);
    }

    @Test
    void componentsNestAndTransformsChainInnermostFirst() {
        String resources = SOLID + """
                <object id="2"><components>
                <component objectid="1" transform="2 0 0 0 2 0 0 0 2 0 0 0"/>
                <component objectid="1" transform="-1 0 0 0 1 0 0 0 1 -5 0 0"/></components></object>
                <object id="3"><components><component objectid="2" transform="1 0 0 0 1 0 0 0 1 100 0 0"/>
                </components></object>""";
        PartFile file = read(resources, "<item objectid=\"3\" transform=\"1 0 0 0 1 0 0 0 -1 0 0 0\"/>"
                + "<item objectid=\"1\"/>");
        assertEquals(12, file.mesh().triangleCount());
        assertEquals((8 + 1 + 1) / 6.0, file.mesh().volume(), 1e-12);
        assertArrayEquals(new double[] {0, 0, -2, 102, 2, 1}, file.mesh().bounds());
    }

    @Test
    void objectsNotInTheBuildAndSupportsAreLeftOut() {
        PartFile file = read(SOLID + "<object id=\"2\">" + ThreeMfFiles.TETRAHEDRON + "</object>"
                + "<object id=\"3\" type=\"support\">" + ThreeMfFiles.TETRAHEDRON + "</object>",
                "<item objectid=\"1\"/><item objectid=\"3\"/>");
        assertEquals(4, file.mesh().triangleCount());
        assertEquals("supports-left-out", file.findings().get(0).code());
    }

    @Test
    void foreignNamespacesAreIgnoredUnlessRequired() {
        String model = ThreeMfFiles.plainModel()
                .replace("<model ", "<model xmlns:q=\"http://example.org/q\" q:mood=\"fine\" ")
                .replace("<vertices>", "<q:vertices><vertex x=\"9\" y=\"9\" z=\"9\"/></q:vertices><vertices>")
                .replace("<triangles>", "<triangles><q:triangle v1=\"77\"/>");
        assertEquals(1.0 / 6, read(model).mesh().volume(), 1e-15);
        assertRefused(model.replace("<model ", "<model requiredextensions=\"q\" "), "unsupported-extension",
                "http://example.org/q");
        assertRefused(model.replace("<model ", "<model requiredextensions=\"zz\" "), "unsupported-extension", "zz");
    }

    @Test
    void productionExtensionPutsObjectsInOtherParts() {
        Map<String, String> parts = new LinkedHashMap<>();
        parts.put("_rels/.rels", ThreeMfFiles.RELATIONSHIPS);
        parts.put("3D/part.model", ThreeMfFiles.model("requiredextensions=\"p\" "
                + "xmlns:p=\"http://schemas.microsoft.com/3dmanufacturing/production/2015/06\"",
                "<object id=\"5\"><components><component objectid=\"1\" p:path=\"/3D/Objects/Wing.model\"/>"
                + "</components></object>", "<item objectid=\"5\"/>"));
        parts.put("3D/Objects/Wing.model", ThreeMfFiles.model("", SOLID, ""));
        assertEquals(1.0 / 6, Readings.read(ThreeMfFiles.zip(parts)).mesh().volume(), 1e-15);
        parts.remove("3D/Objects/Wing.model");
        assertRefused(ThreeMfFiles.zip(parts), "bad-structure", "wing.model");
    }

    @Test
    void circlesAndComponentBombsAreRefused() {
        assertRefused(ThreeMfFiles.model("", "<object id=\"1\"><components><component objectid=\"1\"/></components>"
                + "</object>", "<item objectid=\"1\"/>"), "bad-structure", "circle");
        StringBuilder bomb = new StringBuilder("<object id=\"1\"><mesh><vertices/><triangles/></mesh></object>");
        for (int i = 2; i < 30; i++) {
            bomb.append("<object id=\"").append(i).append("\"><components>")
                    .append(("<component objectid=\"" + (i - 1) + "\"/>").repeat(10)).append("</components></object>");
        }
        assertRefused(ThreeMfFiles.model("", bomb.toString(), "<item objectid=\"29\"/>"), "bad-structure", "placed");
        String many = "<item objectid=\"1\"/>".repeat(1000);
        byte[] crowd = ThreeMfFiles.file(ThreeMfFiles.model("", SOLID, many));
        assertEquals("too-many-triangles",
                Readings.refusal(crowd, new MeshLimits(1 << 20, 3999, 1 << 20, 1 << 20)).code());
        assertEquals(4000, Readings.read(crowd).mesh().triangleCount());
    }

    @Test
    void structureThatNamesNothingIsRefused() {
        assertRefused(ThreeMfFiles.model("", SOLID, "<item objectid=\"9\"/>"), "bad-structure", "object 9");
        assertRefused(ThreeMfFiles.model("", SOLID + SOLID, ""), "bad-structure", "id 1");
        assertRefused(ThreeMfFiles.model("", SOLID, ""), "empty", "0 items");
        assertRefused(ThreeMfFiles.plainModel().replace("v3=\"1\"", "v3=\"4\""), "index-out-of-range", "triangle 0");
        assertRefused(ThreeMfFiles.plainModel().replace("v3=\"1\"", "v3=\"-1\""), "bad-number", "v3");
        assertRefused(ThreeMfFiles.plainModel().replace("v3=\"1\"", ""), "bad-xml", "v3");
        assertRefused(ThreeMfFiles.plainModel().replace("x=\"1\"", "x=\"NaN\""), "coordinate-not-finite", "NaN");
        assertRefused(ThreeMfFiles.plainModel().replace("x=\"1\"", "x=\"1e99\""), "coordinate-out-of-range", "1e99");
        assertRefused(ThreeMfFiles.plainModel().replace("x=\"1\"", "x=\"one\""), "bad-number", "one");
        assertRefused(ThreeMfFiles.plainModel().replace("objectid=\"1\"", "objectid=\"1\" transform=\"1 0 0\""),
                "bad-xml", "twelve");
        assertRefused(ThreeMfFiles.plainModel().replace("objectid=\"1\"",
                "objectid=\"1\" transform=\"1 0 0 0 1 0 0 0 0 0 0 0\""), "bad-structure", "flattens");
        assertRefused(ThreeMfFiles.plainModel().replace("model", "muddle"), "bad-xml", "no 3MF model");
        assertRefused(ThreeMfFiles.zip(Map.of("a.txt", "hello")), "bad-structure", "relationship");
    }

    @Test
    void documentTypesAndEntitiesAreRefused() {
        String dtd = "<!DOCTYPE model [<!ENTITY e SYSTEM \"file:///etc/passwd\">]>\n<model ";
        assertRefused(ThreeMfFiles.plainModel().replace("<model ", dtd), "bad-xml", "document type");
        assertRefused(ThreeMfFiles.plainModel().replace("<model ", dtd).replace("x=\"1\"", "x=\"&e;\""), "bad-xml",
                "document type");
        assertRefused(ThreeMfFiles.plainModel().replace("</resources>", "&e;</resources>"), "bad-xml", "line");
        String relationships = ThreeMfFiles.RELATIONSHIPS.replace("<Relationships",
                "<!DOCTYPE x SYSTEM \"http://127.0.0.1:1/x.dtd\"><Relationships");
        Map<String, String> parts = Map.of("_rels/.rels", relationships, "3D/part.model", ThreeMfFiles.plainModel());
        assertRefused(ThreeMfFiles.zip(parts), "bad-xml", "document type");
    }

    @Test
    void textThatIsNotUtf8IsRefused() {
        byte[] file = ThreeMfFiles.file(ThreeMfFiles.plainModel());
        assertEquals(4, Readings.read(file).mesh().triangleCount());
        String latin = ThreeMfFiles.plainModel().replace("<resources>", "<resources><!-- \uD800 -->");
        assertEquals(4, read(latin).mesh().triangleCount());
        assertRefused(ThreeMfFiles.plainModel().replace("UTF-8", "UTF-16").replace("<", "<\u0000"), "bad-xml", "line");
    }

    @Test
    void bombsAreRefusedByWhatComesOut() {
        String blank = " ".repeat(40 << 20);
        byte[] bomb = ThreeMfFiles.zip(Map.of("_rels/.rels", ThreeMfFiles.RELATIONSHIPS, "junk.bin", blank,
                "3D/part.model", ThreeMfFiles.plainModel()));
        assertTrue(bomb.length < 100_000, "compressed to " + bomb.length);
        assertRefused(bomb, "unfolds-too-large", "unfold");
        String inside = ThreeMfFiles.plainModel().replace("<resources>", blank + "<resources>");
        Finding finding = Readings.refusal(ThreeMfFiles.file(inside));
        assertTrue(finding.code().equals("unfolds-too-large") || finding.code().equals("bad-xml"), finding.message());
        byte[] plain = ThreeMfFiles.file(ThreeMfFiles.plainModel());
        assertEquals("unfolds-too-large", Readings.refusal(plain, new MeshLimits(1 << 20, 100, 100, 500)).code());
    }

    @Test
    void deepAndStrangeDocumentsAreRefused() {
        assertRefused(ThreeMfFiles.plainModel().replace("<resources>", "<resources>" + "<a>".repeat(100)
                + "</a>".repeat(100)), "bad-xml", "deeper");
    }

    @Test
    void everyCutBeforeTheDirectoryIsRefused() {
        byte[] file = ThreeMfFiles.file(ThreeMfFiles.plainModel());
        int directory = new String(file, java.nio.charset.StandardCharsets.ISO_8859_1).indexOf("PK\u0001\u0002");
        for (int length = 0; length < directory - 16; length++) {
            Readings.refusal(Arrays.copyOf(file, length));
        }
        assertRefused(Arrays.copyOf(file, directory / 2), "truncated", "too soon");
    }

    @Test
    void partsThatOccurTwiceAreRefused() {
        Map<String, String> parts = new LinkedHashMap<>();
        parts.put("_rels/.rels", ThreeMfFiles.RELATIONSHIPS);
        parts.put("3D/part.model", ThreeMfFiles.plainModel());
        parts.put("3D/PART.model", ThreeMfFiles.plainModel());
        assertRefused(ThreeMfFiles.zip(parts), "bad-archive", "twice");
    }
}
