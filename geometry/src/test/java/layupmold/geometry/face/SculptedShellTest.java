package layupmold.geometry.face;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.testparts.IsoSurface;
import org.joml.Vector3d;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Shells as sculptors make them: no edges, but isosurfaces whose rims and openings waver from triangle to triangle. */
class SculptedShellTest {

    private static final Vector3d PULL = new Vector3d(0, 0, -1);
    private static final double RADIUS = 45;
    private static final double RIM = 15;
    private static final double WALL = 3;
    private static final double EYE = 8;

    /**
     * The rim of a ball's cap cut flat is a circle; marching leaves it a row of facets, along which the border was 9 to 12 %
     * too long.
     */
    @ParameterizedTest
    @CsvSource({"0.9", "0.7"})
    void theRimIsAsLongAsItsCircle(double step) {
        FaceResult face = face(dome(0.01, false, step));
        double ring = 2 * Math.PI * Math.sqrt(RADIUS * RADIUS - RIM * RIM);
        assertEquals(ring, face.perimeterMm(), 0.01 * ring);
        assertTrue(face.openings().isEmpty());
        double area = 2 * Math.PI * RADIUS * (RADIUS - RIM);
        // Marching cuts the edge itself off, and the border stays within what is left.
        assertEquals(area, face.areaMm2(), 0.03 * area);
    }

    /**
     * Where a rim is rounded the face ends on the circle around which the surface is upright. With {@code w} the flat cut's
     * share of the normal, {@code (1 - w) z / R = w}; the smooth maximum has {@code w = h / 2} and is
     * {@code ball + h² k / 4} where {@code cut = ball - (1 - h) k}.
     */
    @ParameterizedTest
    @CsvSource({"1.5, 0.8", "2, 0.7", "3, 0.8"})
    void aRoundedRimEndsWhereItStandsUpright(double rounding, double step) {
        double slope = RIM / RADIUS;
        double h = 2 * slope / (1 + slope);
        double ball = -h * h * rounding / 4;
        double z = RIM - ball + (1 - h) * rounding;
        double ring = 2 * Math.PI * Math.sqrt((RADIUS + ball) * (RADIUS + ball) - z * z);
        assertEquals(ring, face(dome(rounding, false, step)).perimeterMm(), 0.01 * ring);
    }

    /** A round opening straight through the slope, its edges rounded: seen from above a circle a little wider than it. */
    @ParameterizedTest
    @CsvSource({"0.01, 0.8", "1.5, 0.8", "2, 0.7"})
    void anOpeningIsARingAtItsEdge(double rounding, double step) {
        FaceResult face = face(dome(rounding, true, step));
        assertEquals(1, face.openings().size());
        double widest = 0;
        double narrowest = Double.MAX_VALUE;
        double seen = 0;
        for (int edge : face.openings().get(0)) {
            Vector3d at = face.mesh().vertex(face.topology().from(edge)).sub(16, 5, 0).mul(1, 1, 0);
            Vector3d next = face.mesh().vertex(face.topology().to(edge)).sub(16, 5, 0).mul(1, 1, 0);
            widest = Math.max(widest, at.length());
            narrowest = Math.min(narrowest, at.length());
            seen += at.distance(next);
        }
        assertTrue(narrowest > EYE - 0.1 * WALL && widest < EYE + 0.3 * WALL, narrowest + " to " + widest);
        assertEquals(Math.PI * (narrowest + widest), seen, 0.05 * seen);
    }

    /** Caps met the slivers and folds that the border's zigzags left beside them. */
    @ParameterizedTest
    @CsvSource({"1.5, 0.8", "2, 0.9"})
    void aMoldIsMadeOfIt(double rounding, double step) {
        MoldOutcome made = MoldPipeline.make(new PartFile(dome(rounding, true, step), "stl-binary", null, List.of()),
                Recipe.defaults().withPull(PULL), (stage, share) -> { });
        assertInstanceOf(MoldOutcome.Mold.class, made);
    }

    private static FaceResult face(TriangleMesh mesh) {
        return FaceExtraction.extract(mesh, EdgeTopology.of(mesh), PULL, new Keep.Outer());
    }

    private static TriangleMesh dome(double rounding, boolean eye, double step) {
        return IsoSurface.of(p -> {
            double ball = p.length() - RADIUS;
            double shell = intersection(ball, -ball - WALL, rounding);
            double cut = intersection(shell, RIM - p.z, rounding);
            return eye ? intersection(cut, EYE - Math.hypot(p.x - 16, p.y - 5), rounding) : cut;
        }, new Vector3d(-48.3, -48.2, 11.1), new Vector3d(48.1, 48.4, 48.2), step);
    }

    /** Largest of two, rounded over {@code k} where they are alike: a quadratic smooth maximum. */
    private static double intersection(double a, double b, double k) {
        double h = Math.max(0, k - Math.abs(a - b)) / k;
        return Math.max(a, b) + h * h * k / 4;
    }
}
