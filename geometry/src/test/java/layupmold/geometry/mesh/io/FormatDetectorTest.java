package layupmold.geometry.mesh.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import layupmold.geometry.finding.Finding;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class FormatDetectorTest {

    @ParameterizedTest
    @ValueSource(strings = {"Dear workshop, please find attached", "\u0089PNG\r\n\u001a\n", "%PDF-1.7", "\u00ff\u00d8\u00ff\u00e0",
        "<html>", "{\"a\":1}", "ISO-10303-21;", "\u001f\u008b\u0008", "\u0000\u0001\u0002\u0003"})
    void whatIsNoMeshIsNamed(String text) {
        Finding finding = Readings.refusal(text.getBytes(StandardCharsets.ISO_8859_1));
        assertEquals("unknown-format", finding.code());
    }

    @ParameterizedTest
    @ValueSource(strings = {" \n\t\r\n", "# only a comment\n", ""})
    void nothingIsEmpty(String text) {
        assertEquals("empty", Readings.refusal(text.getBytes(StandardCharsets.ISO_8859_1)).code());
    }

    @Test
    void nameDoesNotDecide() {
        byte[] obj = "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\n".getBytes(StandardCharsets.US_ASCII);
        assertEquals("obj", MeshReader.read(obj, "wing.stl", MeshLimits.defaults()).format());
        assertEquals("obj", MeshReader.read(obj, "../../etc/passwd", MeshLimits.defaults()).format());
    }

    @Test
    void sizesAreHeldToTheLimits() {
        String obj = "v 0 0 0\nv 1 0 0\nv 0 1 0\nv 1 1 0\nf 1 2 3\nf 1 2 4\nf 1 3 4\n";
        byte[] bytes = obj.getBytes(StandardCharsets.US_ASCII);
        assertEquals("too-large", Readings.refusal(bytes, new MeshLimits(10, 9, 9, 9)).code());
        assertEquals("too-many-triangles", Readings.refusal(bytes, new MeshLimits(999, 2, 9, 9)).code());
        assertEquals("too-many-vertices", Readings.refusal(bytes, new MeshLimits(999, 9, 3, 9)).code());
        assertEquals(3, MeshReader.read(bytes, null, new MeshLimits(999, 3, 4, 9)).mesh().triangleCount());
        String polygon = obj + "f 1 2 4 3\n";
        assertEquals("too-many-triangles", Readings.refusal(polygon.getBytes(StandardCharsets.US_ASCII),
                new MeshLimits(999, 4, 9, 9)).code());
        byte[] stl = StlReaderTest.binary(layupmold.geometry.shapes.Soups.box(1, 1, 1), "x");
        assertEquals("too-many-triangles", Readings.refusal(stl, new MeshLimits(9999, 11, 99, 9)).code());
        assertEquals("too-many-vertices", Readings.refusal(stl, new MeshLimits(9999, 12, 35, 9)).code());
    }

    @Test
    void hostileNamesAreShownSafely() {
        Finding finding;
        try {
            MeshReader.read(new byte[] {1, 2, 3}, "a\u001b[31m\n" + "x".repeat(500), MeshLimits.defaults());
            throw new AssertionError("three bytes are no mesh");
        } catch (layupmold.geometry.finding.Rejection rejection) {
            finding = rejection.finding();
        }
        assertTrue(finding.message().chars().allMatch(c -> c >= ' ' && c < 127), finding.message());
        assertTrue(finding.message().length() < 200, finding.message());
    }
}
