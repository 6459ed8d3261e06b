package layupmold.geometry.mesh.prepare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.shapes.Soups;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

/** Each repair on a mesh broken on purpose, whose whole form is known. */
class RepairTest {

    private static final TriangleMesh BALL = Shapes.sphere(80, 40);

    private static CleanPart clean(TriangleMesh mesh) {
        CleanPart part = PartCleanerTest.clean(mesh);
        Promises.check(part, mesh.triangleCount());
        return part;
    }

    private static Finding finding(CleanPart part, String code) {
        return part.findings().stream().filter(f -> f.code().equals(code)).findFirst()
                .orElseThrow(() -> new AssertionError("no " + code + " in " + part.findings()));
    }

    private static TriangleMesh without(TriangleMesh mesh, int... dropped) {
        boolean[] drop = new boolean[mesh.triangleCount()];
        for (int t : dropped) {
            drop[t] = true;
        }
        return new TriangleMesh(mesh.xyz(), IntStream.range(0, mesh.triangles().length).filter(i -> !drop[i / 3])
                .map(i -> mesh.triangles()[i]).toArray());
    }

    private static int[] trianglesAt(TriangleMesh mesh, int vertex) {
        return IntStream.range(0, mesh.triangles().length).filter(i -> mesh.triangles()[i] == vertex).map(i -> i / 3)
                .toArray();
    }

    @Test
    void cornersThatDifferByRoundingAreJoined() {
        TriangleMesh torn = Soups.unwelded(BALL);
        SplittableRandom random = new SplittableRandom(4);
        double[] xyz = Arrays.stream(torn.xyz()).map(c -> c + 1e-5 * (random.nextDouble() - 0.5)).toArray();
        CleanPart part = clean(new TriangleMesh(xyz, torn.triangles()));
        assertTrue(part.closed());
        assertEquals(BALL.vertexCount(), part.mesh().vertexCount());
        assertEquals(BALL.volume(), part.mesh().volume(), 1e-6 * BALL.volume());
        assertTrue(part.counts().closedCracks() > BALL.vertexCount());
    }

    @Test
    void finePatchBesideCoarseTrianglesIsJoinedAtItsCorners() {
        TriangleMesh box = Soups.box(100, 100, 10);
        TriangleMesh topless = without(box, IntStream.range(0, 12).filter(t -> box.centroid(t).z == 10).toArray());
        TriangleMesh top = Soups.moved(Shapes.sheet(100, 7), 0, 0, 10);
        CleanPart part = clean(Soups.scrambled(Soups.union(topless, top), 0.2, 1));
        assertTrue(part.closed());
        assertEquals(1e5, part.mesh().volume(), 1e-6);
        assertEquals(4 * 6, part.counts().tJunctions());
        assertEquals(part.counts().tJunctions(), finding(part, "t-junctions-resolved").figure(), 0);
    }

    @Test
    void singleMissingTriangleIsFilledAndShown() {
        CleanPart part = clean(without(BALL, 777));
        assertTrue(part.closed());
        assertEquals(BALL.volume(), part.mesh().volume(), 1e-9 * BALL.volume());
        Finding hole = finding(part, "pin-hole-closed");
        Vector3d middle = BALL.centroid(777);
        assertEquals(0, middle.distance(hole.place().x(), hole.place().y(), hole.place().z()), 1e-9);
        assertEquals(1, Arrays.stream(part.postedTriangle()).filter(p -> p == -1).count());
    }

    @Test
    void pinHoleIsFilledAndAnOpeningIsNot() {
        TriangleMesh fine = Shapes.sheet(100, 250);
        CleanPart pin = clean(without(fine, trianglesAt(fine, 125 * 251 + 125)));
        assertEquals(1, pin.topology().boundaryLoops().size());
        assertEquals(1, pin.counts().filledPinHoles());
        assertEquals(1e4, pin.mesh().area(), 1e-8);
        CleanPart opening = clean(without(BALL, trianglesAt(BALL, BALL.triangles()[3 * 777])));
        assertFalse(opening.closed());
        assertEquals(0, opening.counts().filledPinHoles());
    }

    /** Every 50th edge gets vertices that only one side uses, and triangles without height beside them. */
    @Test
    void capsAreFlippedAway() {
        CleanPart part = clean(Soups.scrambled(withCaps(1), 0.1, 8));
        assertCapsAreGone(part, 1);
    }

    /** As above with three vertices on the edge: the triangles without height lie side by side, and hide behind each other. */
    @Test
    void capsBesideCapsAreFlippedAway() {
        assertCapsAreGone(clean(withCaps(3)), 3);
    }

    private static void assertCapsAreGone(CleanPart part, int anEdge) {
        int caps = anEdge * (BALL.triangleCount() / 50);
        assertTrue(part.closed());
        assertEquals(caps, part.counts().removedSlivers());
        assertEquals(BALL.vertexCount() + caps, part.mesh().vertexCount());
        assertEquals(BALL.volume(), part.mesh().volume(), 1e-9 * BALL.volume());
        assertNoSlivers(part);
    }

    private static TriangleMesh withCaps(int anEdge) {
        int n = BALL.triangleCount();
        int edges = n / 50;
        double[] xyz = Arrays.copyOf(BALL.xyz(), BALL.xyz().length + 3 * anEdge * edges);
        int[] triangles = Arrays.copyOf(BALL.triangles(), 3 * (n + 2 * anEdge * edges));
        int at = 3 * n;
        for (int i = 0; i < edges; i++) {
            int t = 50 * i + 25;
            int first = BALL.vertexCount() + anEdge * i;
            int a = triangles[3 * t];
            int b = triangles[3 * t + 1];
            int c = triangles[3 * t + 2];
            for (int j = 0; j < anEdge; j++) {
                double share = (j + 1.0) / (anEdge + 1);
                for (int k = 0; k < 3; k++) {
                    xyz[3 * (first + j) + k] = (1 - share) * xyz[3 * a + k] + share * xyz[3 * b + k];
                }
            }
            System.arraycopy(new int[] {first + anEdge - 1, b, c}, 0, triangles, 3 * t, 3);
            for (int j = anEdge - 1; j >= 0; j--, at += 6) {
                int before = j == 0 ? a : first + j - 1;
                System.arraycopy(new int[] {before, b, first + j, before, first + j, c}, 0, triangles, at, 6);
            }
        }
        return new TriangleMesh(xyz, triangles);
    }

    /** Some vertices are pulled into two, a micrometre's hundredth apart, with two needles between. */
    @Test
    void needlesAreCollapsed() {
        TriangleMesh mesh = BALL;
        int needles = 0;
        for (int t = 100; t < BALL.triangleCount(); t += 400) {
            mesh = withNeedles(mesh, 3 * t);
            needles++;
        }
        CleanPart part = clean(mesh);
        assertTrue(part.closed());
        assertEquals(BALL.vertexCount(), part.mesh().vertexCount());
        assertEquals(BALL.triangleCount(), part.mesh().triangleCount());
        assertEquals(needles, part.counts().removedSlivers());
        assertEquals(BALL.volume(), part.mesh().volume(), 1e-8 * BALL.volume());
        assertNoSlivers(part);
    }

    /** Splits vertex {@code from(h)} so that the fan from {@code h} halfway round goes to a new vertex close by. */
    private static TriangleMesh withNeedles(TriangleMesh mesh, int h) {
        var topology = layupmold.geometry.mesh.EdgeTopology.of(mesh);
        int[] triangles = Arrays.copyOf(mesh.triangles(), mesh.triangles().length + 6);
        double[] xyz = Arrays.copyOf(mesh.xyz(), mesh.xyz().length + 3);
        int v = mesh.triangles()[h];
        int w = mesh.vertexCount();
        for (int k = 0; k < 3; k++) {
            xyz[3 * w + k] = xyz[3 * v + k] + 5e-6;
        }
        int first = topology.to(h);
        int g = h;
        int last = first;
        for (int i = 0; i < 3; i++) {
            triangles[g] = w;
            last = topology.from(layupmold.geometry.mesh.EdgeTopology.previous(g));
            g = topology.twin(layupmold.geometry.mesh.EdgeTopology.previous(g));
        }
        System.arraycopy(new int[] {w, v, first, v, w, last}, 0, triangles, mesh.triangles().length, 6);
        return new TriangleMesh(xyz, triangles);
    }

    private static void assertNoSlivers(CleanPart part) {
        TriangleMesh mesh = part.mesh();
        for (int t = 0; t < mesh.triangleCount(); t++) {
            double longest = Math.max(mesh.corner(t, 0).distance(mesh.corner(t, 1)), Math.max(
                    mesh.corner(t, 1).distance(mesh.corner(t, 2)), mesh.corner(t, 2).distance(mesh.corner(t, 0))));
            assertTrue(mesh.areaNormal(t).length() / longest > 1e-5, "triangle " + t + " has no height");
        }
    }

    @Test
    void detailFinerThanTheCrackToleranceStays() {
        TriangleMesh coarse = Shapes.sheet(200, 100);
        double[] xyz = coarse.xyz().clone();
        for (int i = 0; i < xyz.length; i += 3) {
            xyz[i] *= 5e-4;
        }
        CleanPart part = clean(Soups.unwelded(new TriangleMesh(xyz, coarse.triangles())));
        CleaningCounts counts = part.counts();
        assertEquals(coarse.triangleCount(), part.mesh().triangleCount());
        assertEquals(coarse.vertexCount(), part.mesh().vertexCount());
        assertEquals(0, counts.closedCracks() + counts.tJunctions() + counts.removedSlivers());
    }

    @Test
    void soundMeshIsLeftAsItIs() {
        CleanPart part = clean(Soups.unwelded(BALL));
        assertEquals(List.of(), part.findings());
        assertEquals(BALL.triangleCount(), part.mesh().triangleCount());
        for (int t = 0; t < BALL.triangleCount(); t++) {
            assertEquals(t, part.postedTriangle()[t]);
        }
    }
}
