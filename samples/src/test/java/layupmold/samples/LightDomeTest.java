package layupmold.samples;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.HashMap;
import java.util.Map;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

class LightDomeTest {

    @Test
    void isAClosedShellOfTwentyThousandTriangles() {
        TriangleMesh dome = LightDome.of(80);
        assertEquals(20_000, dome.triangleCount());
        Map<Long, Integer> balance = new HashMap<>();
        int[] corners = dome.triangles();
        for (int t = 0; t < corners.length; t += 3) {
            for (int k = 0; k < 3; k++) {
                long from = corners[t + k];
                long to = corners[t + (k + 1) % 3];
                balance.merge(Math.min(from, to) << 32 | Math.max(from, to), from < to ? 1 : -1, Integer::sum);
            }
        }
        balance.forEach((edge, sum) -> assertEquals(0, sum, () -> "edge " + Long.toHexString(edge)));
        // Shell between two spheres within a cone: 2/3 pi (R^3 - r^3)(1 - cos 70 deg), less what the chords leave out.
        double formula = 2.0 / 3 * Math.PI * (80 * 80 * 80 - 77.5 * 77.5 * 77.5) * (1 - Math.cos(Math.toRadians(70)));
        assertEquals(formula, volume(dome), 0.005 * formula);
    }

    private static double volume(TriangleMesh mesh) {
        double sum = 0;
        for (int t = 0; t < mesh.triangleCount(); t++) {
            sum += mesh.corner(t, 0).dot(mesh.corner(t, 1).cross(mesh.corner(t, 2), new Vector3d())) / 6;
        }
        return sum;
    }
}
