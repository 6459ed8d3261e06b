package layupmold.geometry.opening;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.DoubleStream;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.mesh.TriangleMesh;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Openings as boolean operations cut them: what comes of them must not hang on where their rims' corners fell. */
class CutOpeningsTest {

    private static final double RADIUS = 50;
    private static final double WIDTH = 0.8;

    static DoubleStream holeRadii() {
        return DoubleStream.iterate(8, r -> r < 11.5, r -> r + 0.3);
    }

    @ParameterizedTest
    @MethodSource("holeRadii")
    void capContinuesTheSphereInFewTriangles(double holeRadius) {
        HoledSheet sheet = dome(holeRadius);
        CappedFace capped = sheet.capped(0);
        OpeningCapperTest.assertSound(sheet, capped);
        assertEquals(List.of(), capped.findings());
        assertEquals(CapShape.TANGENT, capped.caps().get(0).shape());
        // Rims are polygons: their sides' middles lie up to 3 µm inside the sphere.
        double off = OpeningCapperTest.worst(capped, p -> Math.abs(p.length() - RADIUS));
        assertTrue(off <= 0.002 * RADIUS, "off the sphere by " + off / RADIUS + " R");
        // At the mean density of the rim it would be about 900, and as much again along it.
        assertTrue(capped.caps().get(0).triangleCount() < 2000, "triangles: " + capped.caps().get(0).triangleCount());
    }

    @ParameterizedTest
    @MethodSource("holeRadii")
    void markComesOutAndCrossesNothing(double holeRadius) {
        HoledSheet sheet = dome(holeRadius);
        CappedFace capped = sheet.capped(WIDTH);
        OpeningCapperTest.assertSound(sheet, capped);
        assertEquals(1, capped.caps().get(0).trimRings().size());
        for (int sign = -1; sign <= 1; sign += 2) {
            double depth = WIDTH * TrimEngraving.MOST_DEPTH_BY_WIDTH;
            TriangleMesh engraved = TrimEngraving.engrave(capped, sign * depth);
            assertEquals(0, SelfIntersections.find(engraved, 1).length);
            for (int v : capped.caps().get(0).trimRings().get(0).valley()) {
                double moved = engraved.vertex(v).length() - capped.mesh().vertex(v).length();
                assertEquals(sign * depth, moved, 0.02 * depth);
            }
        }
    }

    private static HoledSheet dome(double holeRadius) {
        return HoledSheet.of(16, 1.1, List.of(HoledSheet.cutCircle(holeRadius, 1.1, holeRadius / 3)), (u, v) -> {
            double arc = Math.hypot(u, v);
            double s = arc > 0 ? RADIUS * Math.sin(arc / RADIUS) / arc : 1;
            return new double[] {s * u, s * v, RADIUS * Math.cos(arc / RADIUS)};
        });
    }
}
