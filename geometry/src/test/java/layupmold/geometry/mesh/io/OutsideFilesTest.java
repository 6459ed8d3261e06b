package layupmold.geometry.mesh.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Map;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.prepare.CleanPart;
import layupmold.geometry.mesh.prepare.PartCleaner;
import layupmold.geometry.outside.Bunny;
import layupmold.geometry.outside.Outsiders;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.shapes.Soups;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Our files read by programs from Debian, and theirs by us. */
class OutsideFilesTest {

    private static final TriangleMesh BALL = Soups.moved(Shapes.sphere(40, 24), 60, -10, 5);

    private static void assertIsBall(byte[] bytes, String format) {
        PartFile file = Readings.read(bytes);
        assertEquals(format, file.format());
        CleanPart part = PartCleaner.clean(file, Recipe.defaults());
        assertTrue(part.closed());
        assertEquals(BALL.triangleCount(), part.mesh().triangleCount());
        assertEquals(BALL.volume(), part.mesh().volume(), 1e-5 * BALL.volume());
    }

    @Test
    void admeshFindsOurStlClosed() {
        Outsiders.AdmeshReport report = Outsiders.admesh(StlReaderTest.binary(BALL, "ball"));
        assertTrue(report.isOneClosedSurface(), report.toString());
        assertEquals(BALL.triangleCount(), report.facets());
        assertEquals(BALL.volume(), report.volume(), 1e-5 * BALL.volume());
    }

    @Test
    void admeshFindsWhatIsWrong() {
        TriangleMesh open = new TriangleMesh(BALL.xyz(),
                java.util.Arrays.copyOf(BALL.triangles(), BALL.triangles().length - 3));
        assertFalse(Outsiders.admesh(StlReaderTest.binary(open, "open")).isOneClosedSurface());
        TriangleMesh turned = Soups.scrambled(BALL, 0.2, 3);
        assertFalse(Outsiders.admesh(StlReaderTest.binary(turned, "turned")).isOneClosedSurface());
    }

    @ParameterizedTest
    @CsvSource({"stl,stl-ascii", "stlb,stl-binary", "obj,obj", "ply,ply-ascii", "plyb,ply-binary"})
    void assimpAndWeReadEachOther(String export, String format) {
        assertIsBall(Outsiders.assimp(StlReaderTest.binary(BALL, "ball"), "stl", export), format);
    }

    @Test
    void assimpReadsOur3mf() {
        byte[] file = ThreeMfWriterTest.write(BALL, new byte[BALL.triangleCount()], Map.of("Title", "Ball"));
        assertIsBall(Outsiders.assimp(file, "3mf", "obj"), "obj");
    }

    @Test
    void lib3mfReadsOur3mfWithoutComplaintAndWeReadIts() {
        byte[] file = ThreeMfWriterTest.write(BALL, null, Map.of("Title", "Ball", "recipeHash", "0123abcd"));
        Outsiders.Lib3mfReport report = Outsiders.lib3mf(file);
        assertEquals(0, report.warnings());
        assertTrue(report.manifold());
        assertEquals(BALL.vertexCount(), report.vertices());
        assertEquals(BALL.triangleCount(), report.triangles());
        assertEquals(BALL.volume(), report.volume(), 1e-5 * BALL.volume());
        assertIsBall(report.rewritten(), "3mf");
    }

    @Test
    void lib3mfTakesLabelledRegions() {
        byte[] regions = new byte[BALL.triangleCount()];
        for (int t = 0; t < regions.length; t++) {
            regions[t] = (byte) (t / 100 % 7);
        }
        Outsiders.Lib3mfReport report = Outsiders.lib3mf(ThreeMfWriterTest.write(BALL, regions, Map.of()));
        assertTrue(report.manifold());
        assertEquals(BALL.triangleCount(), report.triangles());
    }

    @Test
    void bunnyComesThroughEveryFormat() {
        TriangleMesh bunny = Bunny.mesh();
        byte[] stl = StlReaderTest.binary(bunny, "bunny");
        StringBuilder obj = new StringBuilder();
        for (int v = 0; v < bunny.vertexCount(); v++) {
            obj.append("v ").append(bunny.xyz()[3 * v]).append(' ').append(bunny.xyz()[3 * v + 1]).append(' ')
                    .append(bunny.xyz()[3 * v + 2]).append('\n');
        }
        for (int i = 0; i < bunny.triangles().length; i += 3) {
            obj.append("f ").append(bunny.triangles()[i] + 1).append(' ').append(bunny.triangles()[i + 1] + 1)
                    .append(' ').append(bunny.triangles()[i + 2] + 1).append('\n');
        }
        for (byte[] file : List.of(stl, obj.toString().getBytes(StandardCharsets.US_ASCII),
                ThreeMfWriterTest.write(bunny, null, Map.of()))) {
            CleanPart part = PartCleaner.clean(Readings.read(file), Recipe.defaults());
            assertTrue(part.closed());
            assertEquals(bunny.vertexCount(), part.mesh().vertexCount());
            Outsiders.AdmeshReport report = Outsiders.admesh(StlReaderTest.binary(part.mesh(), "bunny"));
            assertTrue(report.isOneClosedSurface(), report.toString());
            assertEquals(report.volume(), part.mesh().volume(), 1e-4 * report.volume());
        }
    }

    @Test
    void bunnyCutOpenHasOneBoundary() {
        TriangleMesh bunny = Bunny.mesh();
        double[] box = bunny.bounds();
        double cut = box[1] + 0.3 * (box[4] - box[1]);
        int[] above = IntStream.range(0, bunny.triangleCount()).filter(t -> bunny.centroid(t).y > cut)
                .flatMap(t -> IntStream.range(3 * t, 3 * t + 3)).map(i -> bunny.triangles()[i]).toArray();
        CleanPart part = PartCleaner.clean(Readings.read(StlReaderTest.binary(
                Soups.scrambled(new TriangleMesh(bunny.xyz(), above), 0.3, 9), "bunny")), Recipe.defaults());
        assertFalse(part.closed());
        assertEquals(0, part.topology().nonManifoldCount());
        Outsiders.AdmeshReport report = Outsiders.admesh(StlReaderTest.binary(part.mesh(), "bunny"));
        assertEquals(0, report.reversedFacets());
        assertEquals(0, report.backwardsEdges());
        assertEquals(1, report.parts());
    }
}
