package layupmold.geometry.simplify;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.IntStream;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.testparts.RandomShells;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class SimplifierTest {

    private static final SimplifyLimits LIMITS = new SimplifyLimits(0.01, 0.004, 0.001);

    private static Simplifier.Result simplify(TriangleMesh mesh, int[] labels, SimplifyLimits limits) {
        return Simplifier.simplify(mesh, labels, new boolean[mesh.vertexCount()], limits);
    }

    /** Every vertex stays on the sphere; a flat triangle's middle is off by the sagitta. */
    @Test
    void sphereStaysWithinTheDeviation() {
        TriangleMesh sphere = Shapes.sphere(30, 120);
        SimplifyLimits limits = new SimplifyLimits(0.05, 0.004, 0.001);
        TriangleMesh fewer = simplify(sphere, new int[sphere.triangleCount()], limits).mesh();
        assertTrue(fewer.triangleCount() < sphere.triangleCount() / 2, fewer.triangleCount() + " left");
        assertTrue(EdgeTopology.of(fewer).isClosedAndOriented());
        assertEquals(0, SelfIntersections.find(fewer, TriangleBvh.of(fewer), 10).length);
        for (int t = 0; t < fewer.triangleCount(); t++) {
            assertEquals(30, fewer.centroid(t).length(), 0.05 + sagitta(sphere));
        }
        assertEquals(sphere.volume(), fewer.volume(), 1e-3 * sphere.volume());
    }

    private static double sagitta(TriangleMesh sphere) {
        double deepest = 0;
        for (int t = 0; t < sphere.triangleCount(); t++) {
            deepest = Math.max(deepest, 30 - sphere.centroid(t).length());
        }
        return deepest;
    }

    /** A plane needs two triangles; the boundary keeps them from being fewer, and the area from changing. */
    @Test
    void flatSheetBecomesItsCorners() {
        TriangleMesh sheet = Shapes.sheet(40, 30);
        TriangleMesh flat = new TriangleMesh(flattened(sheet.xyz()), sheet.triangles());
        TriangleMesh fewer = simplify(flat, new int[flat.triangleCount()], LIMITS).mesh();
        assertTrue(fewer.triangleCount() <= 8, fewer.triangleCount() + " left");
        assertEquals(flat.area(), fewer.area(), 1e-6 * flat.area());
        assertEquals(1, EdgeTopology.of(fewer).boundaryLoops().size());
    }

    private static double[] flattened(double[] xyz) {
        double[] flat = xyz.clone();
        for (int i = 2; i < flat.length; i += 3) {
            flat[i] = 0;
        }
        return flat;
    }

    @Test
    void labelsKeepTheirAreas() {
        TriangleMesh sphere = Shapes.sphere(20, 60);
        int[] labels = new int[sphere.triangleCount()];
        for (int t = 0; t < labels.length; t++) {
            labels[t] = sphere.centroid(t).z > 4 ? 1 : -1;
        }
        Simplifier.Result result = simplify(sphere, labels, new SimplifyLimits(0.02, 0.004, 0.001));
        assertEquals(area(sphere, labels), area(result.mesh(), result.labels()), 0.02 * area(sphere, labels));
    }

    private static double area(TriangleMesh mesh, int[] labels) {
        double twice = 0;
        for (int t = 0; t < labels.length; t++) {
            twice += labels[t] == 1 ? mesh.areaNormal(t).length() : 0;
        }
        return twice / 2;
    }

    @Test
    void fixedVerticesStay() {
        TriangleMesh sphere = Shapes.sphere(30, 40);
        boolean[] fixed = new boolean[sphere.vertexCount()];
        Arrays.fill(fixed, 0, fixed.length / 2, true);
        Simplifier.Result result =
                Simplifier.simplify(sphere, new int[sphere.triangleCount()], fixed, new SimplifyLimits(1, 0.004, 0.001));
        int stayed = 0;
        for (boolean still : result.fixed()) {
            stayed += still ? 1 : 0;
        }
        assertEquals(fixed.length / 2, stayed);
    }

    /** Three fixed vertices that had no triangle between them get one only if the bridge allows it. */
    @Test
    void newTrianglesBetweenFixedVerticesAreAskedFor() {
        assertTrue(bridges((xyz, a, b, c) -> true) > 0);
        assertEquals(0, bridges((xyz, a, b, c) -> false));
    }

    /** Of a sphere every second vertex of which is fixed. */
    private static long bridges(Simplifier.Bridge bridge) {
        TriangleMesh sphere = Shapes.sphere(30, 40);
        boolean[] fixed = new boolean[sphere.vertexCount()];
        for (int v = 0; v < fixed.length; v += 2) {
            fixed[v] = true;
        }
        Simplifier.Result result = Simplifier.simplify(
                sphere, new int[sphere.triangleCount()], fixed, new SimplifyLimits(1, 0.004, 0.001), bridge);
        Set<List<Vector3d>> given = new HashSet<>();
        IntStream.range(0, sphere.triangleCount()).forEach(t -> given.add(sortedCorners(sphere, t)));
        int[] corners = result.mesh().triangles();
        return IntStream.range(0, result.mesh().triangleCount())
                .filter(t -> IntStream.range(3 * t, 3 * t + 3).allMatch(i -> result.fixed()[corners[i]]))
                .filter(t -> !given.contains(sortedCorners(result.mesh(), t)))
                .count();
    }

    private static List<Vector3d> sortedCorners(TriangleMesh mesh, int t) {
        return IntStream.range(0, 3).mapToObj(k -> mesh.corner(t, k))
                .sorted(Comparator.<Vector3d>comparingDouble(p -> p.x).thenComparingDouble(p -> p.y).thenComparingDouble(p -> p.z))
                .toList();
    }

    /** A corner of three flat triangles between two labels looks like a fin that may be laid down any way. */
    @Test
    void aFlatCornerDoesNotLeaveTheBorderBetweenLabels() {
        double[] xyz = {0, 0, 0, 10, -6, 0, 10, 6, 0, 9, 0.5, 0, -1, -6, 0, -1, 6, 0, 20, 0, 0};
        int[] triangles = {0, 1, 3, 0, 3, 2, 1, 2, 3, 0, 4, 1, 0, 2, 5, 0, 5, 4, 1, 6, 2};
        int[] labels = {0, 0, 1, 0, 0, 0, 1};
        TriangleMesh mesh = new TriangleMesh(xyz, triangles);
        boolean[] fixed = {true, true, true, false, true, true, true};
        Simplifier.Result fewer = Simplifier.simplify(mesh, labels, fixed, LIMITS);
        assertEquals(area(mesh, labels), area(fewer.mesh(), fewer.labels()), 1e-9);
    }

    /** Whatever is collapsed, the mesh stays a closed manifold of the same Euler characteristic. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 5, 8, 13})
    void shellsStayManifold(long seed) {
        TriangleMesh shell = RandomShells.shell(seed).mesh();
        TriangleMesh fewer = simplify(shell, new int[shell.triangleCount()], new SimplifyLimits(0.1, 0.05, 0.001)).mesh();
        assertTrue(fewer.triangleCount() < shell.triangleCount());
        EdgeTopology topology = EdgeTopology.of(fewer);
        assertEquals(0, topology.nonManifoldCount());
        assertEquals(0, topology.nonManifoldVertices(fewer.vertexCount()).length);
        assertEquals(euler(shell), euler(fewer));
    }

    private static int euler(TriangleMesh mesh) {
        EdgeTopology topology = EdgeTopology.of(mesh);
        int edges = (topology.halfEdgeCount() + topology.boundaryCount()) / 2;
        return (int) Arrays.stream(mesh.triangles()).distinct().count() - edges + mesh.triangleCount();
    }

    @Test
    void sameInputSameResult() {
        TriangleMesh shell = RandomShells.shell(4).mesh();
        TriangleMesh first = simplify(shell, new int[shell.triangleCount()], LIMITS).mesh();
        TriangleMesh second = simplify(shell, new int[shell.triangleCount()], LIMITS).mesh();
        assertArrayEquals(first.xyz(), second.xyz());
        assertArrayEquals(first.triangles(), second.triangles());
    }

    private static final CoordinateLattice LATTICE = CoordinateLattice.within(100);
    private static final Target FLAT = new Plane();

    /** A vertex pushed through the sheet beside it by a hair: the crossing is collapsed away. */
    @Test
    void aHairsCrossingIsTakenOut() {
        TriangleMesh sheet = Shapes.sheet(10, 20);
        double[] xyz = flattened(sheet.xyz());
        int v = middleVertex(sheet);
        int w = neighbour(sheet, v);
        // Past its neighbour in the sheet's plane: the fan of v now lies on that of w.
        for (int k = 0; k < 2; k++) {
            xyz[3 * v + k] += 1.02 * (xyz[3 * w + k] - xyz[3 * v + k]);
        }
        TriangleMesh crossed = new TriangleMesh(xyz, sheet.triangles());
        assertTrue(SelfIntersections.find(crossed, TriangleBvh.of(crossed), 100).length > 0);
        Simplifier.Result repaired = CrossingRepair.repair(new Simplifier.Result(
                crossed, new int[crossed.triangleCount()], new boolean[crossed.vertexCount()]), FLAT, LATTICE);
        assertEquals(0, SelfIntersections.find(repaired.mesh(), TriangleBvh.of(repaired.mesh()), 100).length);
        assertEquals(100, repaired.mesh().area(), 1e-2);
    }

    /** The tip of a wide pyramid a step below a plane: no edge is short enough to collapse. */
    @Test
    void aTipThroughAPlaneIsShiftedBack() {
        double step = LATTICE.stepMm();
        TriangleMesh crossed = new TriangleMesh(
                new double[] {-20, -20, 0, 20, -20, 0, 0, 25, 0, -5, -5, 5, 5, -5, 5, 0, 5, 5, 0, 0, -step},
                new int[] {0, 1, 2, 3, 4, 6, 4, 5, 6, 5, 3, 6});
        Simplifier.Result repaired = CrossingRepair.repair(new Simplifier.Result(
                crossed, new int[4], new boolean[7]), FLAT, LATTICE);
        assertEquals(0, SelfIntersections.find(repaired.mesh(), TriangleBvh.of(repaired.mesh()), 100).length);
        assertEquals(4, repaired.mesh().triangleCount());
        double tip = IntStream.range(0, repaired.mesh().vertexCount())
                .mapToDouble(v -> repaired.mesh().vertex(v).length()).min().orElseThrow();
        assertEquals(0, tip, 60 * step);
        assertEquals(-step, crossed.xyz()[20]);
    }

    /** Any vertex away from the boundary will do. */
    private static int middleVertex(TriangleMesh mesh) {
        EdgeTopology topology = EdgeTopology.of(mesh);
        boolean[] inner = new boolean[mesh.vertexCount()];
        Arrays.fill(inner, true);
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            inner[topology.from(h)] &= topology.twin(h) >= 0;
            inner[topology.to(h)] &= topology.twin(h) >= 0;
        }
        int v = mesh.vertexCount() / 2;
        while (!inner[v]) {
            v++;
        }
        return v;
    }

    private static int neighbour(TriangleMesh mesh, int v) {
        int[] corners = mesh.triangles();
        for (int i = 0; i < corners.length; i++) {
            if (corners[i] == v) {
                return corners[i / 3 * 3 + (i + 1) % 3];
            }
        }
        throw new IllegalStateException("no neighbour");
    }
}
