package layupmold.geometry.face;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.stream.IntStream;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Severity;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.recipe.Recipe;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Sheets cut out of a scan along its triangles: a ball's cap that ends anywhere about a circle. */
class TornBorderTest {

    private static final Vector3d PULL = new Vector3d(0, 0, -1);
    private static final double BALL = 60;
    private static final double RING = 40;
    private static final double STEP = 1.5;

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void aTornSheetIsTrimmedToAnEvenLineInside(long seed) {
        FaceResult face = face(sheet(2, seed));
        FaceResult trimmed = TornBorder.trimmed(face).orElseThrow();
        double least = RING;
        double most = 0;
        for (int h : trimmed.perimeter()) {
            Vector3d at = trimmed.mesh().vertex(trimmed.topology().from(h));
            least = Math.min(least, Math.hypot(at.x, at.y));
            most = Math.max(most, Math.hypot(at.x, at.y));
        }
        assertTrue(most < RING, "beyond what was there: " + most);
        // Corners are torn by up to two either way, and the line keeps clear of the deepest.
        assertTrue(least > RING - 4 * STEP, "trimmed to " + least);
        assertEquals(Math.PI * (least + most), trimmed.perimeterMm(), 0.02 * trimmed.perimeterMm());
        assertEquals(face.areaMm2(), trimmed.areaMm2() + trimmed.removedAreaMm2(), 1e-6 * face.areaMm2());
        Finding said = trimmed.findings().get(0);
        assertEquals("border-trimmed", said.code());
        assertEquals(Severity.WARNING, said.severity());
        assertTrue(said.figure() > RING - most && said.figure() < 6 * STEP, said.toString());
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3})
    void aMoldIsMadeOfIt(long seed) {
        MoldOutcome made = MoldPipeline.make(new PartFile(sheet(2, seed), "stl-binary", null, List.of()),
                Recipe.defaults().withPull(PULL), (stage, share) -> { });
        List<Finding> said = assertInstanceOf(MoldOutcome.Mold.class, made).report().findings();
        Finding trimmed = said.stream().filter(f -> f.code().equals("border-trimmed")).findFirst().orElseThrow();
        // In the posted part's own frame.
        Vector3d at = new Vector3d(trimmed.place().x(), trimmed.place().y(), trimmed.place().z());
        assertEquals(BALL, at.length(), 0.01);
        assertTrue(Math.hypot(at.x, at.y) > RING - 3, at.toString());
    }

    /** What ends along an even line stays as it is. */
    @Test
    void anEvenBorderIsLeftAlone() {
        double[] xyz = new double[3 * 601];
        int[] triangles = new int[3 * 600];
        xyz[2] = BALL;
        for (int i = 0; i < 600; i++) {
            double turn = 2 * Math.PI * i / 600;
            xyz[3 * i + 3] = RING * Math.cos(turn);
            xyz[3 * i + 4] = RING * Math.sin(turn);
            xyz[3 * i + 5] = Math.sqrt(BALL * BALL - RING * RING);
            triangles[3 * i + 1] = 1 + i;
            triangles[3 * i + 2] = 1 + (i + 1) % 600;
        }
        assertTrue(TornBorder.trimmed(face(new TriangleMesh(xyz, triangles))).isEmpty());
    }

    private static FaceResult face(TriangleMesh mesh) {
        return FaceExtraction.extract(mesh, EdgeTopology.of(mesh), PULL, new Keep.Outer());
    }

    /** Triangles of a grid that lie within the ring, give or take {@code tornMm} for each: the largest piece of them. */
    private static TriangleMesh sheet(double tornMm, long seed) {
        Random random = new Random(seed);
        int row = 2 * (int) Math.ceil((RING + 2 * tornMm) / STEP) + 1;
        double[] xyz = new double[3 * row * row];
        for (int v = 0; v < row * row; v++) {
            xyz[3 * v] = (v % row - row / 2 + 0.3 * random.nextDouble()) * STEP;
            xyz[3 * v + 1] = (v / row - row / 2 + 0.3 * random.nextDouble()) * STEP;
            double r = Math.hypot(xyz[3 * v], xyz[3 * v + 1]);
            xyz[3 * v + 2] = Math.sqrt(Math.max(0, BALL * BALL - r * r));
        }
        int[] corners = IntStream.range(0, row * (row - 1)).filter(v -> v % row < row - 1)
                .flatMap(v -> IntStream.of(v, v + 1, v + row + 1, v, v + row + 1, v + row)).toArray();
        TriangleMesh grid = new TriangleMesh(xyz, corners);
        boolean[] kept = new boolean[grid.triangleCount()];
        double[] areas = new double[kept.length];
        for (int t = 0; t < kept.length; t++) {
            Vector3d at = grid.centroid(t);
            kept[t] = Math.hypot(at.x, at.y) < RING - tornMm + 2 * tornMm * random.nextDouble() - 1;
            areas[t] = grid.areaNormal(t).length() / 2;
        }
        LabelRegions regions = LabelRegions.of(EdgeTopology.of(grid), kept);
        int largest = LabelRegions.largest(regions.areas(kept, areas));
        for (int t = 0; t < kept.length; t++) {
            kept[t] &= regions.ofTriangle()[t] == largest;
        }
        return FaceMesh.of(grid, kept, areas).mesh();
    }
}
