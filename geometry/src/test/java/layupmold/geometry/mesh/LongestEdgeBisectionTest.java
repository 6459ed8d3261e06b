package layupmold.geometry.mesh;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

class LongestEdgeBisectionTest {

    private static final double MOST_MM = 4;

    /** Two triangles, bent along their common side. */
    private final TriangleMesh roof = new TriangleMesh(
            new double[] {0, 0, 0, 100, 0, 20, 100, 60, 0, 0, 60, 30}, new int[] {0, 1, 2, 0, 2, 3});

    @Test
    void noSideIsLonger() {
        TriangleMesh shortened = shorten(roof, loops(roof).get(0));
        EdgeTopology topology = EdgeTopology.of(shortened);
        List<int[]> loops = topology.boundaryLoops();
        assertEquals(1, loops.size());
        assertEquals(0, topology.nonManifoldCount());
        for (int h : loops.get(0)) {
            double length = length(shortened, topology, h);
            assertTrue(length <= MOST_MM && length > MOST_MM / 2, "side of " + length);
        }
    }

    /** Every piece lies in the triangle that it is of: area vectors add up, and pieces keep their normal. */
    @Test
    void theSurfaceStays() {
        TriangleMesh shortened = shorten(roof, loops(roof).get(0));
        double[] areas = new double[2];
        for (int t = 0; t < shortened.triangleCount(); t++) {
            Vector3d normal = shortened.areaNormal(t).normalize();
            int of = normal.dot(roof.areaNormal(0).normalize()) > 1 - 1e-9 ? 0 : 1;
            assertEquals(1, normal.dot(roof.areaNormal(of).normalize()), 1e-9);
            areas[of] += shortened.areaNormal(t).length();
        }
        assertEquals(roof.areaNormal(0).length(), areas[0], 1e-6);
        assertEquals(roof.areaNormal(1).length(), areas[1], 1e-6);
        assertEquals(Arrays.toString(roof.xyz()), Arrays.toString(Arrays.copyOf(shortened.xyz(), roof.xyz().length)));
    }

    /** Rivara 1997: no angle gets smaller than half the smallest, and triangles grow away from what was split. */
    @Test
    void trianglesStayStoutAndGrowInward() {
        TriangleMesh shortened = shorten(roof, loops(roof).get(0));
        assertTrue(leastAngle(shortened) >= leastAngle(roof) / 2, "least angle " + leastAngle(shortened));
        EdgeTopology topology = EdgeTopology.of(shortened);
        double longest = 0;
        for (int h = 0; h < 3 * shortened.triangleCount(); h++) {
            longest = Math.max(longest, length(shortened, topology, h));
        }
        assertTrue(longest > 4 * MOST_MM, "longest edge " + longest);
        int sides = loops(shortened).get(0).length;
        assertTrue(shortened.triangleCount() < 6 * sides, shortened.triangleCount() + " triangles, " + sides + " sides");
    }

    @Test
    void onlyTheGivenSidesAreShortened() {
        TriangleMesh frame = frame();
        List<int[]> loops = loops(frame);
        TriangleMesh shortened = shorten(frame, loops.get(0));
        EdgeTopology topology = EdgeTopology.of(shortened);
        List<int[]> after = topology.boundaryLoops();
        assertEquals(2, after.size());
        for (int[] loop : after) {
            boolean outer = Arrays.stream(loop).anyMatch(h -> topology.from(h) == 0);
            double longest = Arrays.stream(loop).mapToDouble(h -> length(shortened, topology, h)).max().orElseThrow();
            assertEquals(outer, longest <= MOST_MM, "longest side " + longest);
        }
    }

    /** The outline of the frame: its first side in pieces of a millimetre, the others in pieces of 4. */
    @Test
    void everySideHasALengthOfItsOwn() {
        TriangleMesh frame = frame();
        EdgeTopology before = EdgeTopology.of(frame);
        int[] sides = loops(frame).stream().filter(loop -> before.from(loop[0]) < 4).findFirst().orElseThrow();
        double[] most = each(sides, MOST_MM);
        for (int i = 0; i < sides.length; i++) {
            most[i] = frame.vertex(before.from(sides[i])).y + frame.vertex(before.to(sides[i])).y == 0 ? 1 : MOST_MM;
        }
        TriangleMesh shortened = LongestEdgeBisection.shorten(frame, before, sides, most);
        EdgeTopology topology = EdgeTopology.of(shortened);
        for (int h = 0; h < 3 * shortened.triangleCount(); h++) {
            double y = shortened.vertex(topology.from(h)).y + shortened.vertex(topology.to(h)).y;
            if (topology.twin(h) < 0 && y == 0) {
                assertTrue(length(shortened, topology, h) <= 1 && length(shortened, topology, h) > 0.5);
            } else if (topology.twin(h) < 0 && y == 80) {
                assertTrue(length(shortened, topology, h) <= MOST_MM && length(shortened, topology, h) > 2);
            }
        }
    }

    @Test
    void aMeshOfShortSidesIsLeftAlone() {
        EdgeTopology topology = EdgeTopology.of(roof);
        int[] sides = topology.boundaryLoops().get(0);
        assertSame(roof, LongestEdgeBisection.shorten(roof, topology, sides, each(sides, 110)));
    }

    /** A square ring: its outer corners are vertices 0 to 3, the hole's 4 to 7. */
    private static TriangleMesh frame() {
        double[] xyz = {0, 0, 0, 40, 0, 0, 40, 40, 0, 0, 40, 0, 14, 14, 0, 26, 14, 0, 26, 26, 0, 14, 26, 0};
        int[] triangles = new int[24];
        for (int i = 0; i < 4; i++) {
            int k = (i + 1) % 4;
            System.arraycopy(new int[] {i, k, 4 + k, i, 4 + k, 4 + i}, 0, triangles, 6 * i, 6);
        }
        return new TriangleMesh(xyz, triangles);
    }

    private static TriangleMesh shorten(TriangleMesh mesh, int[] sides) {
        return LongestEdgeBisection.shorten(mesh, EdgeTopology.of(mesh), sides, each(sides, MOST_MM));
    }

    private static double[] each(int[] sides, double mostMm) {
        double[] most = new double[sides.length];
        Arrays.fill(most, mostMm);
        return most;
    }

    private static List<int[]> loops(TriangleMesh mesh) {
        return EdgeTopology.of(mesh).boundaryLoops();
    }

    private static double length(TriangleMesh mesh, EdgeTopology topology, int h) {
        return mesh.vertex(topology.from(h)).distance(mesh.vertex(topology.to(h)));
    }

    private static double leastAngle(TriangleMesh mesh) {
        double least = Math.PI;
        for (int t = 0; t < mesh.triangleCount(); t++) {
            for (int k = 0; k < 3; k++) {
                Vector3d at = mesh.corner(t, k);
                least = Math.min(least, mesh.corner(t, (k + 1) % 3).sub(at).angle(mesh.corner(t, (k + 2) % 3).sub(at)));
            }
        }
        return least;
    }
}
