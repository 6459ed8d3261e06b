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

    /**
     * Grooves of V section, 2 mm of cloth each and lower than the net's links: folded paper, so the cloth is still the
     * square it was folded from, and no shorter for what it spends in the grooves.
     */
    @ParameterizedTest
    @ValueSource(doubles = {0, 30, 90})
    void pleats(double angleDeg) {
        double[] x = new double[161];
        double[] z = new double[161];
        for (int k = 1; k <= 160; k++) {
            int phase = k % 8;
            double slope = phase == 4 ? -1 : phase == 5 ? 1 : 0;
            x[k] = x[k - 1] + (slope == 0 ? 1 : Math.sqrt(0.5));
            z[k] = z[k - 1] + slope * Math.sqrt(0.5);
        }
        TriangleMesh pleated = Sheets.bent(SIZE, 160,
                (u, v) -> new Vector3d(x[(int) Math.round(u + 80)] - x[160] / 2, v, z[(int) Math.round(u + 80)]));
        // The start lies on the wall of a groove, where a direction taken from the triangle would be 9 degrees off.
        DrapedPly ply = Drape.ply(ToolSheet.of(pleated), new DrapeSpec(Weave.TWILL_2X2, angleDeg,
                new Vector3d(x[84] - x[160] / 2 - 0.3, 2, z[84] + 0.3), 0, 50, 0), RigidTransform.identity());
        assertEquals(SIZE * SIZE, pleated.area(), 1e-6 * SIZE * SIZE);
        assertEquals(SIZE * SIZE, ply.figures().flatMm2(), 0.002 * SIZE * SIZE);
        assertEquals(0, ply.figures().areaImbalance(), 0.002);
        assertTrue(ply.figures().p95ShearDeg() < 1, "shear " + ply.figures().p95ShearDeg());
        double turned = Math.toDegrees(Math.atan2(ply.uv()[321] - ply.uv()[1], ply.uv()[320] - ply.uv()[0]));
        assertEquals(0, Math.IEEEremainder(turned + angleDeg, 360), 2.5);
        for (int[] corners : new int[][] {{0, 160}, {0, 161 * 160}, {161 * 160, 161 * 161 - 1}}) {
            assertEquals(SIZE, Math.hypot(ply.uv()[2 * corners[0]] - ply.uv()[2 * corners[1]],
                    ply.uv()[2 * corners[0] + 1] - ply.uv()[2 * corners[1] + 1]), 0.5);
        }
    }
}
