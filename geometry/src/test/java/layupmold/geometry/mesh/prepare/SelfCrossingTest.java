package layupmold.geometry.mesh.prepare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Optional;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.Progress;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.shapes.Shapes;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

class SelfCrossingTest {

    private static final double SIZE_MM = 60;

    /** A sheet rolled along a prolate trochoid (x, z) = 10 (s − 2 sin s, −2 cos s), which crosses itself at x = 0. */
    private static TriangleMesh loop() {
        return Shapes.bent(Shapes.sheet(SIZE_MM, 60), p -> {
            double s = 2 * Math.PI * (p.x / SIZE_MM - 0.5);
            return new Vector3d(10 * (s - 2 * Math.sin(s)), p.y, -20 * Math.cos(s));
        });
    }

    @Test
    void namesAPlaceWhereASurfaceCrossesItself() {
        Finding finding = SelfCrossing.in(loop()).orElseThrow();
        assertEquals("part-crosses-itself", finding.code());
        assertEquals(0, finding.place().x(), 1);
        // s = 2 sin s at s = 1.8955 (from memory of the iteration; checked here)
        double s = 1.8955;
        assertEquals(s, 2 * Math.sin(s), 1e-4);
        assertEquals(-20 * Math.cos(s), finding.place().z(), 1);
    }

    @Test
    void saysNothingOfASoundSurface() {
        assertEquals(Optional.empty(), SelfCrossing.in(Shapes.bowl(40, 60, 10, 40)));
    }

    @Test
    void isToldWithWhateverRefusesThePart() {
        MoldOutcome outcome =
                MoldPipeline.make(new PartFile(loop(), "stl", null, List.of()), Recipe.defaults(), Progress.SILENT);
        MoldOutcome.Rejected rejected = assertInstanceOf(MoldOutcome.Rejected.class, outcome);
        assertTrue(rejected.findings().stream().anyMatch(f -> f.code().equals("part-crosses-itself")),
                rejected.findings()::toString);
    }
}
