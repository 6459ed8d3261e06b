package layupmold.geometry.simplify;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

class TargetFitTest {

    private static final CoordinateLattice LATTICE = CoordinateLattice.within(100);
    private static final double TOLERANCE_MM = 0.01;

    /** The roof z = |x| over a square standing on its corner, halved across its valley instead of along it. */
    private static final TriangleMesh ACROSS = new TriangleMesh(
            new double[] {-1, 0, 1, 0, -1, 0, 1, 0, 1, 0, 1, 0}, new int[] {0, 1, 2, 0, 2, 3});

    /** The roof z = slope · |x|, signed distance. */
    private record Roof(double slope, double[] at) implements Target {
        Roof(double slope) {
            this(slope, new double[1]);
        }

        @Override
        public double miss(double x, double y, double z) {
            at[0] = x;
            return (z - slope * Math.abs(x)) / Math.hypot(1, slope);
        }

        @Override
        public double along(double x, double y, double z) {
            return (z - Math.signum(at[0]) * slope * x) / Math.hypot(1, slope);
        }
    }

    private record Ball(double radius, Vector3d at) implements Target {
        @Override
        public double miss(double x, double y, double z) {
            return at.set(x, y, z).length() - radius;
        }

        @Override
        public double along(double x, double y, double z) {
            return at.dot(x, y, z) / at.length();
        }
    }

    /** A plane with a shallow cone pressed into it, whose rim makes no crease. */
    private record Dent(double x, double y, double[] at) implements Target {
        private static final double RADIUS = 0.6;
        private static final double SLOPE = 0.08;

        @Override
        public double miss(double px, double py, double pz) {
            at[0] = px - x;
            at[1] = py - y;
            return pz + SLOPE * Math.max(0, RADIUS - Math.hypot(at[0], at[1]));
        }

        @Override
        public double along(double px, double py, double pz) {
            double distance = Math.hypot(at[0], at[1]);
            double slope = distance < RADIUS ? SLOPE : 0;
            double outward = distance > 0 ? (at[0] * px + at[1] * py) / distance : 0;
            return (pz - slope * outward) / Math.hypot(1, slope);
        }
    }

    private static TargetFit.Result fit(TriangleMesh mesh, int[] labels, boolean loose, Target target) {
        boolean[] looked = new boolean[mesh.triangleCount()];
        Arrays.fill(looked, true);
        boolean[] mayMove = new boolean[mesh.vertexCount()];
        Arrays.fill(mayMove, loose);
        return TargetFit.fit(mesh, labels, looked, mayMove, () -> target, label -> 1, TOLERANCE_MM, LATTICE);
    }

    @Test
    void anEdgeAcrossAValleyIsFlippedIntoIt() {
        TargetFit.Result along = fit(ACROSS, new int[2], false, new Roof(1));
        assertEquals(2, along.mesh().triangleCount());
        // Both halves of the roof: 45° planes, area √2 · 1 each.
        assertEquals(Math.sqrt(2), along.mesh().areaNormal(0).length() / 2, 1e-12);
        assertArrayEquals(new double[2], along.misses(), 1e-12);
    }

    @Test
    void anEdgeAcrossAValleyThatIsABorderIsSplitInIt() {
        TriangleMesh flat = new TriangleMesh(
                LATTICE.round(new double[] {-1, 0, 0.02, 0, -1, 0, 1, 0, 0.02, 0, 1, 0}), ACROSS.triangles());
        TargetFit.Result split = fit(flat, new int[] {0, 1}, false, new Roof(0.02));
        assertEquals(0, Arrays.stream(split.misses()).max().orElseThrow(), TOLERANCE_MM);
        for (int t = 0; t < split.labels().length; t++) {
            Vector3d middle = split.mesh().centroid(t);
            assertEquals(middle.y < 0 ? 0 : 1, split.labels()[t], "on its side of the border");
        }
    }

    /** A sheet of coarse triangles across the valley, with an odd number of cells so that none lies along it. */
    @Test
    void aValleyThatTrianglesBridgeIsFollowed() {
        TriangleMesh flat = Shapes.sheet(10, 21);
        double[] xyz = flat.xyz().clone();
        double middle = (flat.bounds()[0] + flat.bounds()[3]) / 2;
        for (int v = 0; v < xyz.length; v += 3) {
            xyz[v] -= middle;
            xyz[v + 2] = Math.abs(xyz[v]);
        }
        TriangleMesh bridged = new TriangleMesh(LATTICE.round(xyz), flat.triangles());
        TargetFit.Result fitted = fit(bridged, new int[flat.triangleCount()], false, new Roof(1));
        boolean[] border = EdgeTopology.of(fitted.mesh()).borderVertices(fitted.mesh().vertexCount());
        for (int t = 0; t < fitted.misses().length; t++) {
            int[] corners = fitted.mesh().triangles();
            // The boundary keeps its vertices, so triangles there may bridge the valley still.
            if (!border[corners[3 * t]] && !border[corners[3 * t + 1]] && !border[corners[3 * t + 2]]) {
                assertEquals(0, fitted.misses()[t], TOLERANCE_MM);
            }
        }
        // A square sheet of 10 mm on the two 45° planes.
        assertEquals(100 * Math.sqrt(2), fitted.mesh().area(), 0.3);
        assertSound(fitted.mesh(), 1);
    }

    /** Sides that are split where they miss most; halving them until a part is as short as the dent takes 74 triangles. */
    @Test
    void aDentNearTheEndOfALongSideTakesFewTriangles() {
        TriangleMesh sheet = Shapes.sheet(80, 2);
        Vector3d middle = new Vector3d(sheet.bounds()[0] + 40, sheet.bounds()[1] + 40, 0);
        TargetFit.Result dented = fit(sheet, new int[8], false, new Dent(middle.x + 0.4, middle.y + 0.4, new double[2]));
        assertEquals(0, Arrays.stream(dented.misses()).max().orElseThrow(), TOLERANCE_MM);
        assertTrue(dented.mesh().triangleCount() < 50, dented.mesh().triangleCount() + " triangles");
        assertSound(dented.mesh(), 1);
    }

    /** An octahedron becomes a ball: 4/3 π r³, less what its triangles cut off within the tolerance. */
    @Test
    void anOctahedronBecomesABall() {
        double r = 0.6;
        TriangleMesh octahedron = new TriangleMesh(
                new double[] {r, 0, 0, -r, 0, 0, 0, r, 0, 0, -r, 0, 0, 0, r, 0, 0, -r},
                new int[] {0, 2, 4, 2, 1, 4, 1, 3, 4, 3, 0, 4, 2, 0, 5, 1, 2, 5, 3, 1, 5, 0, 3, 5});
        TargetFit.Result ball = fit(octahedron, new int[8], true, new Ball(r, new Vector3d()));
        assertEquals(0, Arrays.stream(ball.misses()).max().orElseThrow(), TOLERANCE_MM);
        double volume = 4 / 3.0 * Math.PI * r * r * r;
        assertEquals(volume - TOLERANCE_MM / 2 * 4 * Math.PI * r * r, ball.mesh().volume(),
                TOLERANCE_MM / 2 * 4 * Math.PI * r * r);
        assertSound(ball.mesh(), 0);
    }

    @Test
    void aLooseVertexGoesHomeAndAFixedOneIsTold() {
        TriangleMesh flat = Shapes.sheet(10, 6);
        double[] xyz = flat.xyz().clone();
        EdgeTopology edges = EdgeTopology.of(flat);
        boolean[] border = edges.borderVertices(flat.vertexCount());
        int v = flat.vertexCount() / 2;
        while (border[v]) {
            v++;
        }
        xyz[3 * v + 2] += 0.2;
        for (int w = 0; w < xyz.length / 3; w++) {
            xyz[3 * w + 2] -= flat.xyz()[3 * w + 2];
        }
        TriangleMesh dented = new TriangleMesh(LATTICE.round(xyz), flat.triangles());
        TargetFit.Result home = fit(dented, new int[flat.triangleCount()], true, new Roof(0));
        assertArrayEquals(new double[home.misses().length], home.misses(), 1e-4);
        assertEquals(flat.triangleCount(), home.mesh().triangleCount());
        TargetFit.Result told = fit(dented, new int[flat.triangleCount()], false, new Roof(0));
        assertTrue(Arrays.stream(told.misses()).max().orElseThrow() > TOLERANCE_MM);
        assertSound(told.mesh(), 1);
    }

    private static void assertSound(TriangleMesh mesh, int loops) {
        EdgeTopology edges = EdgeTopology.of(mesh);
        assertEquals(0, edges.nonManifoldCount());
        assertEquals(loops, edges.boundaryLoops().size());
        assertEquals(0, SelfIntersections.find(mesh, TriangleBvh.of(mesh), 100).length);
    }
}
