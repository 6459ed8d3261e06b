package layupmold.geometry.mesh.io;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import layupmold.geometry.finding.Finding;
import org.junit.jupiter.api.Test;

/** Examples follow appendix B1, Object Files, of the Advanced Visualizer manual (from memory). */
class ObjReaderTest {

    private static final String SQUARE = "v 0 0 0\nv 1 0 0\nv 1 1 0\nv 0 1 0\n";

    private static int[] triangles(String text) {
        return Readings.read(text).mesh().triangles();
    }

    private static void assertRefused(String text, String code, String words) {
        Finding finding = Readings.refusal(text.getBytes(StandardCharsets.UTF_8));
        assertEquals(code, finding.code(), finding.message());
        assertTrue(finding.message().contains(words), finding.message());
    }

    @Test
    void cornersMayNameTextureAndNormal() {
        int[] expected = {0, 1, 2};
        for (String face : new String[] {"f 1 2 3", "f 1/1 2/2 3/3", "f 1//9 2//9 3//9", "f 1/2/3 2/2/3 3/2/3",
            "f -4 -3 -2", "f -4/-1 -3/-1 -2/-1", "f 1 \\\n 2\\\n 3", "f 1 2 3 # a corner", "f 1 2 3\\\n"}) {
            assertArrayEquals(expected, triangles(SQUARE + face), face);
        }
    }

    @Test
    void coloursWeightsAndOtherStatementsArePassedOver() {
        PartFile file = Readings.read("""
                # heron wing
                mtllib none.mtl
                o wing
                vt 0 0
                vn 0 0 1
                v 1 2 3 0.5 0.5 0.5
                v 4 5 6 1.0
                v 7 8 \\
                  10
                s off
                usemtl red
                l 1 2 \\
                3
                f 1 2 3
                """);
        assertArrayEquals(new double[] {1, 2, 3, 4, 5, 6, 7, 8, 10}, file.mesh().xyz());
        assertTrue(file.findings().isEmpty());
        assertEquals("obj", file.format());
    }

    @Test
    void linesThatAreNoStatementsAreReported() {
        Finding finding = Readings.read(SQUARE + "wobble 3\nf 1 2 3\n").findings().get(0);
        assertEquals("lines-ignored", finding.code());
        assertTrue(finding.message().contains("line 5"), finding.message());
    }

    @Test
    void facesMayComeBeforeTheirVertices() {
        assertArrayEquals(new int[] {0, 1, 2}, triangles("f 1 2 3\n" + SQUARE));
    }

    @Test
    void polygonsBecomeTriangles() {
        assertEquals(6, triangles(SQUARE + "f 1 2 3 4").length);
        PartFile thin = Readings.read(SQUARE + "f 1 2\nf 1 2 3\n");
        assertEquals(1, thin.mesh().triangleCount());
        assertEquals("faces-skipped", thin.findings().get(0).code());
    }

    @Test
    void indicesThatNameNothingAreRefused() {
        assertRefused(SQUARE + "f 1 2 5", "index-out-of-range", "line 5");
        assertRefused(SQUARE + "f 1 2 -5", "index-out-of-range", "line 5");
        assertRefused(SQUARE + "f 0 1 2", "index-out-of-range", "line 5");
        assertRefused(SQUARE + "f 1 2 99999999999999999999", "index-out-of-range", "line 5");
        assertRefused(SQUARE + "f 1 2 x", "bad-number", "line 5");
        assertRefused(SQUARE + "f 1 2 3.5", "bad-number", "line 5");
    }

    @Test
    void coordinatesThatAreNoPlaceAreRefused() {
        assertRefused("v 0 0\nf 1 1 1", "bad-syntax", "line 1");
        assertRefused("v 0 0 nan\nf 1 1 1", "coordinate-not-finite", "line 1");
        assertRefused("v 0 1e309 0\nf 1 1 1", "coordinate-out-of-range", "line 1");
        assertRefused("v 0 1;3 0\nf 1 1 1", "bad-number", "line 1");
        assertRefused("v 0 0", "truncated", "line 1");
        assertRefused(SQUARE, "empty", "4 vertices");
    }
}
