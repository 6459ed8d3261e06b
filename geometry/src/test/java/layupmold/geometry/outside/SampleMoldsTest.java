package layupmold.geometry.outside;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.Progress;
import layupmold.geometry.inspect.MeasuredSolid;
import layupmold.geometry.inspect.WallThickness;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.mesh.io.StlWriter;
import layupmold.geometry.recipe.BodySpec;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.shapes.Shapes;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Molds of the whole heron, as their files have them, before programs that share no code with ours: CGAL (Loriot, Tournois
 * and Yaz, "Polygon Mesh Processing", CGAL User and Reference Manual 5.5) and admesh.
 */
class SampleMoldsTest {

    private static final double WALL_MM = 3;
    private static final Path HERON = Path.of("..", "samples", "heron");

    static Stream<String> parts() throws IOException {
        try (Stream<Path> files = Files.list(HERON)) {
            return files.map(file -> file.getFileName().toString()).filter(name -> name.endsWith(".stl")).sorted().toList()
                    .stream();
        }
    }

    @ParameterizedTest
    @MethodSource("parts")
    void aBlockIsOneSolid(String part) throws IOException {
        assertIsOneSolid(mold(part, Recipe.defaults()).solid());
    }

    @ParameterizedTest
    @ValueSource(strings = {"breast.stl", "shin-left.stl"})
    void aShellIsOneSolidWithAnEvenWall(String part) throws IOException {
        MoldOutcome.Mold mold = mold(part, Recipe.defaults().withBody(new BodySpec(BodySpec.Kind.SHELL, WALL_MM)));
        assertIsOneSolid(mold.solid());
        float[] wallMm = WallThickness.measure(MeasuredSolid.of(mold.solid(), mold.regions()), WALL_MM - 0.05, 10 * WALL_MM)
                .map();
        double tool = 0;
        double thick = 0;
        double thin = 0;
        for (int t = 0; t < wallMm.length; t++) {
            if (mold.regions()[t] == MoldRegion.TOOL.ordinal()) {
                double area = mold.solid().areaNormal(t).length() / 2;
                tool += area;
                thick += wallMm[t] > 1.5 * WALL_MM ? area : 0;
                thin += wallMm[t] < WALL_MM - 0.05 ? area : 0;
            }
        }
        // Thick beside the rib along the outline; thin in ridges that copy grooves of the part.
        assertTrue(thick < 1e-3 * tool, thick + " of " + tool + " mm² over half as thick again");
        assertTrue(thin < 1e-4 * tool, thin + " of " + tool + " mm² thinner than asked");
    }

    /** The npm package's mesh, 15 cm long, cut in two along its middle: an open sheet with rough edges and undercuts. */
    @Test
    void halfABunnyGetsAMold() {
        TriangleMesh bunny = Bunny.mesh();
        double[] box = bunny.bounds();
        double middle = (box[0] + box[3]) / 2;
        int[] half = IntStream.range(0, bunny.triangleCount()).filter(t -> bunny.centroid(t).x > middle)
                .flatMap(t -> IntStream.range(3 * t, 3 * t + 3)).map(i -> bunny.triangles()[i]).toArray();
        double scale = 150 / (box[3] - box[0]);
        TriangleMesh part = new TriangleMesh(Arrays.stream(bunny.xyz()).map(x -> x * scale).toArray(), half);
        MoldOutcome made =
                MoldPipeline.make(new PartFile(part, "obj", null, List.of()), Recipe.defaults(), Progress.SILENT);
        MoldOutcome.Mold mold = assertInstanceOf(MoldOutcome.Mold.class, made, made::toString);
        assertIsOneSolid(mold.solid());
        assertEquals("open-sheet", mold.report().part().kind());
        assertTrue(mold.report().offset().maxDeviationMm() <= 0.02, mold.report().offset().toString());
    }

    /** A ball with a dent that comes out on the far side is closed and yet no solid. */
    @Test
    void cgalSeesACrossing() {
        TriangleMesh ball = Shapes.sphere(10, 12);
        assertTrue(Outsiders.cgal(stl(ball)).isOneSolid());
        double[] xyz = ball.xyz().clone();
        int v = ball.triangles()[0];
        for (int k = 0; k < 3; k++) {
            xyz[3 * v + k] *= -1.5;
        }
        Outsiders.CgalReport dented = Outsiders.cgal(stl(new TriangleMesh(xyz, ball.triangles())));
        assertTrue(dented.closed() && dented.crosses(), dented.toString());
        assertFalse(dented.isOneSolid());
    }

    private static MoldOutcome.Mold mold(String part, Recipe recipe) throws IOException {
        byte[] file = Files.readAllBytes(HERON.resolve(part));
        MoldOutcome made =
                MoldPipeline.make(MeshReader.read(file, part, MeshLimits.defaults()), recipe, Progress.SILENT);
        return assertInstanceOf(MoldOutcome.Mold.class, made, made::toString);
    }

    private static void assertIsOneSolid(TriangleMesh mold) {
        byte[] file = stl(mold);
        Outsiders.CgalReport report = Outsiders.cgal(file);
        assertTrue(report.isOneSolid(), report.toString());
        assertEquals(report.volume(), mold.volume(), 1e-6 * report.volume());
        Outsiders.AdmeshReport second = Outsiders.admesh(file);
        assertTrue(second.isOneClosedSurface(), second.toString());
    }

    private static byte[] stl(TriangleMesh mesh) {
        ByteArrayOutputStream file = new ByteArrayOutputStream();
        try {
            StlWriter.write(mesh, "mold", file);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return file.toByteArray();
    }
}
