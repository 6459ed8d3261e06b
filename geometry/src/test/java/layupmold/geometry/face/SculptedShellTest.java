package layupmold.geometry.face;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Keep;
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
        assertEquals(ring, face.perimeterMm(), 0.04 * ring);
        assertTrue(face.openings().isEmpty());
        double area = 2 * Math.PI * RADIUS * (RADIUS - RIM);
        assertEquals(area, face.areaMm2(), 0.02 * area);
    }

    /** A round opening straight through the slope, its edges rounded. */
    @ParameterizedTest
    @CsvSource({"1.5, 0.8", "2, 0.7"})
    void anOpeningIsARingAtItsEdge(double rounding, double step) {
        FaceResult face = face(dome(rounding, true, step));
        assertEquals(1, face.openings().size());
        // Round from above; its edge climbs the slope.
        double length = FaceLoops.length(face.mesh(), face.topology(), face.openings().get(0));
        double ring = 2 * Math.PI * EYE;
        assertTrue(length > ring && length < 1.3 * ring, length + " around an opening of " + ring);
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
