package layupmold.geometry.pull;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import java.util.concurrent.ForkJoinPool;
import java.util.stream.Stream;
import layupmold.geometry.face.RevolvedShell;
import layupmold.geometry.face.RevolvedShell.Rim;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Hold;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.shapes.Soups;
import org.joml.Matrix4d;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

class PullSearchTest {

    /** A bowl leaves its mold along its axis, mouth first, however it lies. */
    @ParameterizedTest
    @CsvSource({"25", "60", "85", "90", "110"})
    void pullsABowlAlongItsAxis(double openDeg) {
        Random random = new Random(11);
        for (int i = 0; i < 3; i++) {
            assertPulledAlongZ(RevolvedShell.sphere(90, 3, openDeg, Rim.ROUND, 96, 30), motion(random, i));
        }
    }

    @ParameterizedTest
    @CsvSource({"30", "5", "0", "-5"})
    void pullsAPanAlongItsAxis(double draftDeg) {
        Random random = new Random(12);
        for (int i = 0; i < 3; i++) {
            assertPulledAlongZ(RevolvedShell.pan(60, draftDeg, 50, 3, Rim.SHARP, 96, 20), motion(random, i));
        }
    }

    static Stream<TriangleMesh> solids() {
        TriangleMesh box = Soups.box(100, 60, 40);
        return Stream.of(
                Shapes.bent(box, p -> p.mul(1 - p.z / 400, 1 - p.z / 400, 1)),
                Shapes.bent(box, p -> p.mul(1, 1, 0.3 + p.x / 200)),
                Shapes.bent(Shapes.sphere(50, 24), p -> p.mul(1, 1, p.z < 0 ? 0 : 1)));
    }

    @Test
    void pullsABlockAlongItsShortestSide() {
        TriangleMesh box = Soups.box(100, 60, 40);
        PullResult pull = PullSearch.find(box, EdgeTopology.of(box), Recipe.defaults());
        assertEquals(1, Math.abs(pull.direction().z), 1e-9);
    }

    /** A box with draft, a ramp and a dome lie on their flat side; across a corner they would lose whole sides. */
    @ParameterizedTest
    @MethodSource("solids")
    void pullsASolidOffItsFlatSide(TriangleMesh solid) {
        Random random = new Random(13);
        for (int i = 0; i < 3; i++) {
            Matrix4d motion = motion(random, i);
            TriangleMesh mesh = Shapes.bent(solid, motion::transformPosition);
            Vector3d pull = PullSearch.find(mesh, EdgeTopology.of(mesh), Recipe.defaults()).direction();
            Vector3d down = motion.transformDirection(new Vector3d(0, 0, -1));
            double off = Math.toDegrees(pull.angle(down));
            assertTrue(off < 0.1, off + "° off");
        }
    }

    @Test
    void takesTheRecipesPull() {
        TriangleMesh mesh = RevolvedShell.sphere(90, 3, 60, Rim.SHARP, 48, 12).mesh();
        PullResult pull = PullSearch.find(mesh, EdgeTopology.of(mesh),
                Recipe.defaults().withPull(new Vector3d(0, -2, 0)));
        assertEquals(new Vector3d(0, -1, 0), pull.direction());
        assertFalse(pull.searched());
    }

    @Test
    void namesARunnerUpWellApart() {
        TriangleMesh mesh = RevolvedShell.sphere(90, 3, 88, Rim.SHARP, 96, 30).mesh();
        PullResult pull = PullSearch.find(mesh, EdgeTopology.of(mesh), Recipe.defaults());
        double apart = Math.toDegrees(pull.runnerUp().angle(pull.direction()));
        assertTrue(apart > 24.9, "only " + apart + "°");
        assertTrue(pull.runnerUpHiddenShare() > pull.hiddenShare());
    }

    @Test
    void saysWhenAFlatPartCouldLeaveEitherWay() {
        TriangleMesh disc = RevolvedShell.pan(60, 60, 0.5, 0.4, Rim.SHARP, 48, 12).mesh();
        PullResult pull = PullSearch.find(disc, EdgeTopology.of(disc), Recipe.defaults());
        assertEquals(1, Math.abs(pull.direction().z), 1e-4);
        assertEquals("pull-sense-unclear", pull.findings().get(0).code());
    }

    /** Where the shape leaves it open, the wall that is asked for lies in the mold. */
    @ParameterizedTest
    @ValueSource(doubles = {20, -20})
    void pullsAFlatPartOffTheSeedsWall(double z) {
        TriangleMesh disc = RevolvedShell.pan(60, 60, 0.5, 0.4, Rim.SHARP, 48, 12).mesh();
        PullResult pull = PullSearch.find(
                disc, EdgeTopology.of(disc), Recipe.defaults().withKeep(new Keep.Seed(0, 0, z)));
        assertEquals(-Math.signum(z), pull.direction().z, 1e-4);
        assertTrue(pull.findings().isEmpty(), pull.findings().toString());
    }

    /** A bowl's mouth is at +z: out of a cavity it leaves that way, off a plug the other. */
    @ParameterizedTest
    @CsvSource({"FEMALE, 1, false", "FEMALE, -1, true", "MALE, -1, false", "MALE, 1, true"})
    void warnsOfAPullAgainstTheMouth(Tool tool, double z, boolean warns) {
        TriangleMesh bowl = RevolvedShell.sphere(90, 3, 60, Rim.SHARP, 48, 12).mesh();
        PullResult pull = PullSearch.find(bowl, EdgeTopology.of(bowl),
                Recipe.defaults().withTool(tool, Hold.INNER).withPull(new Vector3d(0, 0, z)));
        assertEquals(warns ? List.of("pull-against-opening") : List.of(),
                pull.findings().stream().map(Finding::code).toList());
    }

    @Test
    void isTheSameOnOneThreadAndOnMany() throws Exception {
        TriangleMesh mesh = RevolvedShell.sphere(90, 3, 110, Rim.ROUND, 96, 30).moved(motion(new Random(4), 1)).mesh();
        EdgeTopology topology = EdgeTopology.of(mesh);
        PullResult many = PullSearch.find(mesh, topology, Recipe.defaults());
        ForkJoinPool one = new ForkJoinPool(1);
        PullResult single = one.submit(() -> PullSearch.find(mesh, topology, Recipe.defaults())).get();
        one.shutdown();
        assertEquals(many, single);
    }

    private static Matrix4d motion(Random random, int i) {
        Vector3d about = new Vector3d(random.nextDouble(), random.nextDouble(), 1).normalize();
        double angle = 6 * random.nextDouble();
        return i == 0 ? new Matrix4d() : new Matrix4d().translate(2000, -700, 900).rotate(angle, about);
    }

    private static void assertPulledAlongZ(RevolvedShell shell, Matrix4d motion) {
        TriangleMesh mesh = shell.moved(motion).mesh();
        PullResult pull = PullSearch.find(mesh, EdgeTopology.of(mesh), Recipe.defaults());
        Vector3d axis = motion.transformDirection(new Vector3d(0, 0, 1));
        double off = Math.toDegrees(pull.direction().angle(axis));
        assertTrue(off < 0.5, off + "° off the axis");
        assertTrue(pull.searched());
    }
}
