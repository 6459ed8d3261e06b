package layupmold.geometry.drape;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Weave;
import org.joml.Vector3d;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** A surface without Gaussian curvature takes cloth without shear, and the cloth is its development. */
class DevelopableTest {

    private static final double SIZE = 160;

    private static void assertCongruent(Sheets.Bend bend, double angleDeg) {
        TriangleMesh sheet = Sheets.bent(SIZE, 80, bend);
        DrapedPly ply = Drape.ply(ToolSheet.of(sheet), new DrapeSpec(Weave.PLAIN, angleDeg, null, 2, 40, 0),
                RigidTransform.identity());
        assertTrue(ply.figures().maxShearDeg() < 0.5, "shear " + ply.figures().maxShearDeg());
        assertEquals(0, ply.figures().uncoveredMm2());
        assertEquals(ply.figures().surfaceMm2(), ply.figures().flatMm2(), 0.002 * ply.figures().surfaceMm2());
        TriangleMesh flat = Sheets.bent(SIZE, 80, (x, y) -> new Vector3d(x, y, 0));
        int n = sheet.vertexCount();
        for (int v = 0; v < n; v += 37) {
            for (int w = v + 11; w < n; w += 97) {
                double inCloth = Math.hypot(ply.uv()[2 * v] - ply.uv()[2 * w], ply.uv()[2 * v + 1] - ply.uv()[2 * w + 1]);
                assertEquals(flat.vertex(v).distance(flat.vertex(w)), inCloth, 0.4);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 20, 45, 90})
    void cylinder(double angleDeg) {
        double r = 60;
        assertCongruent((x, y) -> new Vector3d(r * Math.sin(x / r), y, r * Math.cos(x / r)), angleDeg);
    }

    /** The square lies in the cone's development with the apex 150 mm from its middle. */
    @ParameterizedTest
    @ValueSource(doubles = {0, 30, 90})
    void cone(double angleDeg) {
        double sine = 0.5;
        assertCongruent((x, y) -> {
            double slant = Math.hypot(x, y + 150);
            double turn = Math.atan2(x, y + 150) / sine;
            return new Vector3d(slant * sine * Math.sin(turn), slant * sine * Math.cos(turn) - 75,
                    -slant * Math.sqrt(1 - sine * sine)).rotateX(Math.toRadians(-50));
        }, angleDeg);
    }
}
