package layupmold.geometry.pull;

import static org.junit.jupiter.api.Assertions.assertEquals;

import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.face.FaceExtraction;
import layupmold.geometry.face.RevolvedShell;
import layupmold.geometry.face.RevolvedShell.Rim;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Keep;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class UndercutTest {

    private static final Vector3d UP = new Vector3d(0, 0, 1);

    /** What lies above a bowl's equator is a spherical zone: area 2πR²·sin(openDeg − 90°). */
    @ParameterizedTest
    @CsvSource({"95", "110", "130"})
    void measuresTheZoneAboveTheEquator(double openDeg) {
        TriangleMesh face = face(openDeg);
        double zone = 2 * Math.PI * 100 * 100 * Math.sin(Math.toRadians(openDeg - 90));
        assertEquals(zone, undercut(face, UP), 0.01 * face.area());
    }

    @Test
    void findsNoneOnADraftedBowl() {
        assertEquals(0, undercut(face(75), UP));
    }

    /**
     * Pulled sideways a hemisphere is held by half of itself that looks back; the other half shadows nothing of it.
     */
    @Test
    void countsHalfAHemispherePulledSideways() {
        TriangleMesh face = face(90);
        assertEquals(face.area() / 2, undercut(face, new Vector3d(1, 0, 0)), 0.01 * face.area());
    }

    private static double undercut(TriangleMesh face, Vector3d pull) {
        return Undercut.areaMm2(face, TriangleBvh.of(face), pull);
    }

    private static TriangleMesh face(double openDeg) {
        TriangleMesh mesh = RevolvedShell.sphere(100, 3, openDeg, Rim.SHARP, 128, 64).mesh();
        return FaceExtraction.extract(mesh, EdgeTopology.of(mesh), UP, new Keep.Outer()).mesh();
    }
}
