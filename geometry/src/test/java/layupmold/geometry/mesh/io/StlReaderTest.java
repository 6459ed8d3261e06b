package layupmold.geometry.mesh.io;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.shapes.Soups;
import org.junit.jupiter.api.Test;

class StlReaderTest {

    private static final String ONE_FACET = """
            solid wedge
             facet normal nan nan nan
              outer loop
               vertex 0 0 0
               vertex 1.5 -2E1 0
               vertex 0 .25 1e-3
              endloop
             endfacet
            endsolid wedge
            """;

    static byte[] binary(TriangleMesh mesh, String header) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            StlWriter.write(mesh, header, out);
        } catch (IOException e) {
            throw new AssertionError(e);
        }
        return out.toByteArray();
    }

    @Test
    void binaryComesBackAsFloat32() {
        TriangleMesh ball = Shapes.sphere(50, 40);
        PartFile file = Readings.read(binary(ball, "ball"));
        assertEquals("stl-binary", file.format());
        double[] expected = Arrays.stream(Soups.unwelded(ball).xyz()).map(c -> (float) c).toArray();
        assertArrayEquals(expected, file.mesh().xyz());
    }

    @Test
    void binaryThatStartsWithSolidIsBinary() {
        byte[] stl = binary(Soups.box(1, 2, 3), "x");
        System.arraycopy("solid part".getBytes(StandardCharsets.US_ASCII), 0, stl, 0, 10);
        assertEquals("stl-binary", Readings.read(stl).format());
        assertEquals("truncated", Readings.refusal(Arrays.copyOf(stl, stl.length - 1)).code());
    }

    @Test
    void headerNeverLooksLikeText() {
        byte[] stl = binary(Soups.box(1, 1, 1), "Solid \u00e9" + "x".repeat(200));
        assertEquals(" Solid ?xxx", new String(stl, 0, 11, StandardCharsets.US_ASCII));
        assertEquals(84 + 12 * 50, stl.length);
    }

    @Test
    void bytesAfterTheLastTriangleAreReported() {
        byte[] stl = binary(Soups.box(1, 1, 1), "x");
        PartFile file = Readings.read(Arrays.copyOf(stl, stl.length + 7));
        assertEquals(12, file.mesh().triangleCount());
        assertEquals("trailing-bytes", file.findings().get(0).code());
    }

    @Test
    void fourBillionTrianglesAreRefusedWithoutMemory() {
        byte[] stl = binary(Soups.box(1, 1, 1), "x");
        ByteBuffer.wrap(stl).order(ByteOrder.LITTLE_ENDIAN).putInt(80, -1);
        Finding finding = Readings.refusal(stl);
        assertEquals("truncated", finding.code());
        assertTrue(finding.message().contains("4294967295"), finding.message());
    }

    @Test
    void coordinatesThatAreNoPlaceAreRefusedWithTheirTriangle() {
        byte[] stl = binary(Soups.box(1, 1, 1), "x");
        ByteBuffer bytes = ByteBuffer.wrap(stl).order(ByteOrder.LITTLE_ENDIAN);
        bytes.putFloat(84 + 50 * 7 + 20, Float.NaN);
        assertRefused(stl, "coordinate-not-finite", "triangle 7");
        bytes.putFloat(84 + 50 * 7 + 20, Float.NEGATIVE_INFINITY);
        assertRefused(stl, "coordinate-not-finite", "triangle 7");
        bytes.putFloat(84 + 50 * 7 + 20, 1e30f);
        assertRefused(stl, "coordinate-out-of-range", "triangle 7");
    }

    @Test
    void textIsReadExactly() {
        PartFile file = Readings.read(ONE_FACET);
        assertEquals("stl-ascii", file.format());
        assertArrayEquals(new double[] {0, 0, 0, 1.5, -20, 0, 0, 0.25, 0.001}, file.mesh().xyz());
    }

    @Test
    void textMayHaveAnyCaseAnyLineEndAndSeveralSolids() {
        String upper = ONE_FACET.toUpperCase(java.util.Locale.ROOT).replace("\n", "\r\n");
        assertEquals(2, Readings.read("\uFEFF" + upper + ONE_FACET).mesh().triangleCount());
        assertEquals(1, Readings.read(ONE_FACET.replace("\n", "\r")).mesh().triangleCount());
    }

    @Test
    void everyCutOfATextIsRefused() {
        int end = ONE_FACET.lastIndexOf("endsolid");
        for (int length = 0; length < end + "endsolid".length(); length++) {
            Finding finding = Readings.refusal(ONE_FACET.substring(0, length).getBytes(StandardCharsets.US_ASCII));
            assertEquals("read", finding.stage());
        }
        assertRefused(ONE_FACET.substring(0, end).getBytes(StandardCharsets.US_ASCII), "truncated", "line 9");
    }

    @Test
    void textWithoutSenseIsRefusedWithItsLine() {
        assertRefused(ONE_FACET.replace("-2E1", "-2,1"), "bad-number", "line 5");
        assertRefused(ONE_FACET.replace("-2E1", "1e999"), "coordinate-out-of-range", "line 5");
        assertRefused(ONE_FACET.replace("-2E1", "-1.#IND"), "coordinate-not-finite", "line 5");
        assertRefused(ONE_FACET.replace("-2E1", "inf"), "coordinate-not-finite", "line 5");
        assertRefused(ONE_FACET.replace("outer loop", "outer ring"), "bad-syntax", "line 3");
        assertRefused("solid nothing\nendsolid\n", "empty", "no triangles");
    }

    private static void assertRefused(String text, String code, String words) {
        assertRefused(text.getBytes(StandardCharsets.UTF_8), code, words);
    }

    private static void assertRefused(byte[] bytes, String code, String words) {
        Finding finding = Readings.refusal(bytes);
        assertEquals(code, finding.code(), finding.message());
        assertTrue(finding.message().contains(words), finding.message());
    }
}
