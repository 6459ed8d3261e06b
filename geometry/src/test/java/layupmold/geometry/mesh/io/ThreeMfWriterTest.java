package layupmold.geometry.mesh.io;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.Map;
import java.util.TimeZone;
import java.util.zip.ZipEntry;
import java.util.zip.ZipInputStream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.LengthUnit;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.shapes.Soups;
import org.junit.jupiter.api.Test;

class ThreeMfWriterTest {

    static byte[] write(TriangleMesh mesh, byte[] regions, Map<String, String> metadata) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            ThreeMfWriter.write(mesh, regions, metadata, out);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
    }

    private static String model(byte[] file) throws IOException {
        try (ZipInputStream zip = new ZipInputStream(new ByteArrayInputStream(file))) {
            for (ZipEntry entry = zip.getNextEntry(); entry != null; entry = zip.getNextEntry()) {
                if (entry.getName().equals("3D/3dmodel.model")) {
                    return new String(zip.readAllBytes(), StandardCharsets.UTF_8);
                }
            }
        }
        throw new AssertionError("no model part");
    }

    @Test
    void comesBackAsFloat32WithSharedVertices() {
        TriangleMesh ball = Shapes.sphere(61.7, 30);
        PartFile file = Readings.read(write(ball, null, Map.of()));
        assertEquals(LengthUnit.MM, file.unit());
        assertArrayEquals(ball.triangles(), file.mesh().triangles());
        for (int i = 0; i < ball.xyz().length; i++) {
            assertEquals((float) ball.xyz()[i], (float) file.mesh().xyz()[i]);
        }
    }

    @Test
    void bytesDependOnTheArgumentsAlone() {
        TriangleMesh ball = Shapes.sphere(20, 10);
        Map<String, String> metadata = Map.of("Title", "Beak", "recipeHash", "abc", "Designer", "Props");
        byte[] first = write(ball, null, metadata);
        TimeZone before = TimeZone.getDefault();
        try {
            TimeZone.setDefault(TimeZone.getTimeZone("Pacific/Kiritimati"));
            assertArrayEquals(first, write(ball, null, metadata));
        } finally {
            TimeZone.setDefault(before);
        }
    }

    @Test
    void ownMetadataHasOwnNamespace() throws IOException {
        String model = model(write(Soups.box(1, 1, 1), null, Map.of("Title", "A <b> & \u00e9 \u0001", "recipeHash", "x")));
        assertTrue(model.contains("<metadata name=\"Title\">A &lt;b&gt; &amp; \u00e9 \uFFFD</metadata>"), model);
        assertTrue(model.contains("<metadata name=\"lm:recipeHash\">x</metadata>"), model);
        assertTrue(model.contains("xmlns:lm=\"urn:layupmold:metadata\""), model);
        assertThrows(IllegalArgumentException.class, () -> write(Soups.box(1, 1, 1), null, Map.of("a:b", "x")));
    }

    @Test
    void regionsAreTriangleSetsThatTogetherNameEveryTriangleOnce() throws IOException {
        byte[] regions = new byte[12];
        Arrays.fill(regions, 0, 5, (byte) MoldRegion.TOOL.ordinal());
        Arrays.fill(regions, 5, 11, (byte) MoldRegion.SIDE.ordinal());
        regions[11] = (byte) MoldRegion.TOOL.ordinal();
        byte[] file = write(Soups.box(2, 2, 2), regions, Map.of());
        String model = model(file);
        assertTrue(model.contains("""
                <t:triangleset name="tool" identifier="tool">
                <t:refrange startindex="0" endindex="4"/>
                <t:ref index="11"/>
                </t:triangleset>
                <t:triangleset name="side" identifier="side">
                <t:refrange startindex="5" endindex="10"/>
                </t:triangleset>
                """), model);
        assertEquals(8, Readings.read(file).mesh().volume(), 1e-12);
        assertThrows(IllegalArgumentException.class, () -> write(Soups.box(1, 1, 1), new byte[3], Map.of()));
    }
}
