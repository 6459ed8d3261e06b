package layupmold.geometry.fillet;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.ToDoubleFunction;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.flange.FlangedSurface;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Against closed forms of a ball of radius r that rolls in boxes, grooves and hollows. */
class FilletStageTest {

    private static final double R = 2;
    private static final double TOLERANCE_MM = 0.02;

    private static FilletedSurface fill(TriangleMesh sheet, double radius) {
        FilletedSurface filled = FilletStage.fill(Sheets.flanged(sheet), new double[0], radius, radius, 0);
        TriangleMesh mesh = filled.surface().mesh();
        EdgeTopology topology = EdgeTopology.of(mesh);
        assertEquals(0, topology.nonManifoldCount());
        assertEquals(EdgeTopology.of(sheet).boundaryLoops().size(), topology.boundaryLoops().size());
        assertEquals(0, SelfIntersections.find(mesh, TriangleBvh.of(mesh), 100).length);
        return filled;
    }

    /** Greatest distance from a surface that is given by a signed distance, over a grid of points on each triangle. */
    private static double farthest(TriangleMesh mesh, ToDoubleFunction<Vector3d> distance) {
        double worst = 0;
        for (int t = 0; t < mesh.triangleCount(); t++) {
            for (int i = 0; i <= 4; i++) {
                for (int j = 0; i + j <= 4; j++) {
                    Vector3d p = mesh.corner(t, 0).mul(i / 4.0).fma(j / 4.0, mesh.corner(t, 1))
                            .fma((4 - i - j) / 4.0, mesh.corner(t, 2));
                    worst = Math.max(worst, Math.abs(distance.applyAsDouble(p)));
                }
            }
        }
        return worst;
    }

    /** Volume between a sheet and the point {@code apex}. */
    private static double volume(TriangleMesh mesh, Vector3d apex) {
        double six = 0;
        for (int t = 0; t < mesh.triangleCount(); t++) {
            Vector3d a = mesh.corner(t, 0).sub(apex);
            Vector3d b = mesh.corner(t, 1).sub(apex);
            Vector3d c = mesh.corner(t, 2).sub(apex);
            six += a.dot(b.cross(c));
        }
        return six / 6;
    }

    /** Edges become quarter cylinders of section (1 − π/4) r², corners eighths of a ball: r³ (1 − π/6) are filled. */
    @ParameterizedTest
    @ValueSource(ints = {1, 3})
    void fillsATraysEdgesAndCorners(int cells) {
        TriangleMesh tray = Sheets.tray(60, 40, 15, cells);
        FilletedSurface filled = fill(tray, R);
        TriangleMesh mesh = filled.surface().mesh();
        assertEquals(0, farthest(mesh, p -> new Vector3d(Math.max(-28, Math.min(28, p.x)),
                Math.max(-18, Math.min(18, p.y)), Math.max(R, p.z)).distance(p) - R), TOLERANCE_MM);
        Vector3d onRim = new Vector3d(0, 0, 15);
        double straight = 2 * (60 - 2 * R) + 2 * (40 - 2 * R) + 4 * (15 - R);
        double exact = (1 - Math.PI / 4) * R * R * straight + 4 * R * R * R * (1 - Math.PI / 6);
        assertEquals(exact, volume(mesh, onRim) - volume(tray, onRim), 0.02 * exact);
        assertEquals((Math.sqrt(3) - 1) * R, filled.figures().deepestMm(), 1e-5);
        assertEquals(1, filled.figures().places().size());
        assertTrue(filled.figures().left().isEmpty());
        assertEquals("corners-filled", filled.findings().get(0).code());
    }

    /** The tool's corners are as much deeper as its radius is larger, the offset being mitred there. */
    @Test
    void measuresDepthOnTheTool() {
        FilletFigures figures =
                FilletStage.fill(Sheets.flanged(Sheets.tray(60, 40, 15, 1)), new double[0], R, R - 0.65, 0.65).figures();
        assertEquals(R - 0.65, figures.faceRadiusMm(), 1e-12);
        assertEquals((Math.sqrt(3) - 1) * R, figures.deepestMm(), 1e-5);
    }

    /** A wedge of half angle a: the ball's centre is r / sin a from its edge. */
    @ParameterizedTest
    @ValueSource(doubles = {30, 45, 60})
    void fillsAWedge(double halfAngleDeg) {
        double a = Math.toRadians(halfAngleDeg);
        double x = 12 * Math.sin(a);
        double z = 12 * Math.cos(a);
        FilletedSurface filled = fill(Sheets.profile(new double[] {-30, z, -x, z, 0, 0, x, z, 30, z}, 20, 1), R);
        assertEquals(R * (1 / Math.sin(a) - 1), filled.figures().deepestMm(), 1e-6);
    }

    /** A groove that the ball does not enter is bridged by its underside, which touches both lips. */
    @Test
    void bridgesANarrowGroove() {
        double centre = Math.sqrt(R * R - 0.75 * 0.75);
        FilletedSurface filled = fill(Sheets.profile(new double[] {-30, 0, -0.75, 0, 0, -2, 0.75, 0, 30, 0}, 20, 6), R);
        assertEquals(0, farthest(filled.surface().mesh(), p -> Math.abs(p.x) < 0.75
                ? Math.hypot(p.x, p.z - centre) - R : p.z), TOLERANCE_MM);
        assertEquals(centre + 2 - R, filled.figures().deepestMm(), 1e-6);
    }

    @Test
    void leavesWhatTheBallReachesBitByBit() {
        TriangleMesh hollow = Sheets.hollow(6, 60);
        FlangedSurface given = Sheets.flanged(hollow);
        FilletedSurface filled = FilletStage.fill(given, new double[0], R, R, 0);
        assertArrayEquals(hollow.xyz(), filled.surface().mesh().xyz());
        assertArrayEquals(hollow.triangles(), filled.surface().mesh().triangles());
        assertTrue(filled.findings().isEmpty());
    }

    @Test
    void filledTwiceIsFilledOnce() {
        FilletedSurface once = fill(Sheets.profile(new double[] {-30, 10, -10, 10, 0, 0, 10, 10, 30, 10}, 20, 3), R);
        FilletedSurface twice = FilletStage.fill(once.surface(), new double[0], R, R, 0);
        assertTrue(twice.figures().deepestMm() < TOLERANCE_MM, () -> "filled again, " + twice.figures().deepestMm());
    }

    /** Points deep in a pit of square plan see the mouth's corners and its middle alike: no filling is made of them. */
    @Test
    void leavesADeepPitAndSaysSo() {
        FlangedSurface given = Sheets.flanged(Sheets.pit(50, 3, 3, 3, 3, 3, 1));
        FilletedSurface filled = FilletStage.fill(given, new double[0], R, R, 0);
        List<LeftPlace> left = filled.figures().left();
        assertEquals(1, left.size());
        assertTrue(Math.abs(left.get(0).at().x()) < 3 && Math.abs(left.get(0).at().y()) < 3, () -> "left " + left);
        assertEquals(1, filled.findings().stream().filter(f -> f.code().equals("corners-left")).count());
        TriangleMesh mesh = filled.surface().mesh();
        assertEquals(0, SelfIntersections.find(mesh, TriangleBvh.of(mesh), 100).length);
        assertEquals(1, EdgeTopology.of(mesh).boundaryLoops().size());
    }
}
