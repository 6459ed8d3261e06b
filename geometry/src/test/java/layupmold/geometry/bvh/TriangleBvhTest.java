package layupmold.geometry.bvh;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.SplittableRandom;
import java.util.concurrent.ForkJoinPool;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import org.junit.jupiter.api.Test;

class TriangleBvhTest {

    private final TriangleMesh confetti = Shapes.confetti(700, 0.12, 3);
    private final TriangleBvh bvh = TriangleBvh.of(confetti);

    @Test
    void nearestPointAgreesWithBruteForce() {
        SplittableRandom random = new SplittableRandom(1);
        NearestPoint fast = new NearestPoint();
        NearestPoint slow = new NearestPoint();
        for (int i = 0; i < 500; i++) {
            double x = 2 * random.nextDouble() - 0.5;
            double y = 2 * random.nextDouble() - 0.5;
            double z = 2 * random.nextDouble() - 0.5;
            bvh.nearest(x, y, z, 10, fast);
            slow.triangle = -1;
            slow.distanceSquared = 100;
            for (int t = 0; t < confetti.triangleCount(); t++) {
                ClosestPoint.onTriangle(confetti.xyz(), 9 * t, 9 * t + 3, 9 * t + 6, x, y, z, t, slow);
            }
            assertEquals(slow.triangle, fast.triangle);
            assertEquals(slow.distanceSquared, fast.distanceSquared);
        }
    }

    @Test
    void nearestPointAmongAcceptedTrianglesAgreesWithBruteForce() {
        SplittableRandom random = new SplittableRandom(5);
        NearestPoint fast = new NearestPoint();
        NearestPoint slow = new NearestPoint();
        for (int i = 0; i < 200; i++) {
            double x = random.nextDouble();
            double y = random.nextDouble();
            double z = random.nextDouble();
            bvh.nearest(x, y, z, 10, t -> t % 7 == 3, fast);
            slow.triangle = -1;
            slow.distanceSquared = 100;
            for (int t = 3; t < confetti.triangleCount(); t += 7) {
                ClosestPoint.onTriangle(confetti.xyz(), 9 * t, 9 * t + 3, 9 * t + 6, x, y, z, t, slow);
            }
            assertEquals(slow.triangle, fast.triangle);
            assertEquals(slow.distanceSquared, fast.distanceSquared);
        }
    }

    @Test
    void nearestPointOfASphereLiesOnTheRadius() {
        TriangleBvh sphere = TriangleBvh.of(Shapes.sphere(10, 200));
        NearestPoint answer = new NearestPoint();
        sphere.nearest(3, 4, 12, 100, answer);
        // Chord error of a sphere of 200 bands: R (1 - cos(pi / 400)) = 0.0003.
        assertEquals(3, answer.distance(), 5e-4);
        sphere.nearest(3, 4, 12, 2.9, answer);
        assertEquals(-1, answer.triangle);
    }

    @Test
    void firstHitAgreesWithBruteForce() {
        SplittableRandom random = new SplittableRandom(2);
        RayHit fast = new RayHit();
        RayHit slow = new RayHit();
        int[] corners = confetti.triangles();
        int hits = 0;
        for (int i = 0; i < 1000; i++) {
            double dx = random.nextDouble() - 0.5;
            double dy = i % 5 == 0 ? 0 : random.nextDouble() - 0.5;
            double dz = random.nextDouble() - 0.5;
            bvh.firstHit(0.5, 0.5, 0.5, dx, dy, dz, 0, 50, -1, fast);
            slow.triangle = -1;
            slow.t = 50;
            for (int t = 0; t < confetti.triangleCount(); t++) {
                RayTriangle.intersect(confetti.xyz(), 3 * corners[3 * t], 3 * corners[3 * t + 1],
                        3 * corners[3 * t + 2], t, 0.5, 0.5, 0.5, dx, dy, dz, 0, slow);
            }
            assertEquals(slow.triangle, fast.triangle);
            hits += fast.triangle >= 0 ? 1 : 0;
        }
        assertTrue(hits > 200, "rays should meet something: " + hits);
    }

    @Test
    void rayInTheSheetsOwnPlaneAndThroughItsEdgesHits() {
        TriangleBvh sheet = TriangleBvh.of(Shapes.sheet(8, 8));
        RayHit hit = new RayHit();
        for (int i = 1; i < 8; i++) {
            sheet.firstHit(i, i, 5, 0, 0, -1, 0, 10, -1, hit);
            assertEquals(5, hit.t, 1e-12);
        }
    }

    @Test
    void selfIntersectionsAgreeWithBruteForce() {
        int[] pairs = SelfIntersections.find(confetti, bvh, Integer.MAX_VALUE / 4);
        int[] expected = new int[pairs.length + 2];
        int n = 0;
        for (int t = 0; t < confetti.triangleCount(); t++) {
            for (int u = t + 1; u < confetti.triangleCount(); u++) {
                if (TriangleOverlap.test(confetti.xyz(), 9 * t, 9 * t + 3, 9 * t + 6, 9 * u, 9 * u + 3, 9 * u + 6)) {
                    expected[n++] = t;
                    expected[n++] = u;
                }
            }
        }
        assertTrue(n > 20, "confetti should cross: " + n);
        assertArrayEquals(Arrays.copyOf(expected, n), pairs);
        int first = confetti.triangleCount() / 2;
        int[] late = new int[n];
        int m = 0;
        for (int i = 0; i < n; i += 2) {
            if (expected[i + 1] >= first) {
                late[m++] = expected[i];
                late[m++] = expected[i + 1];
            }
        }
        assertArrayEquals(Arrays.copyOf(late, m),
                SelfIntersections.findInvolving(confetti, first, Integer.MAX_VALUE / 4));
    }

    /** Enough leaves for several ranges of the search. */
    @Test
    void selfIntersectionsOfManyTrianglesAreThoseFoundOneByOne() {
        TriangleMesh many = Shapes.confetti(20_000, 0.03, 8);
        int[] pairs = SelfIntersections.find(many, Integer.MAX_VALUE / 4);
        assertTrue(pairs.length > 1000, "confetti should cross: " + pairs.length);
        assertArrayEquals(SelfIntersections.findInvolving(many, 0, Integer.MAX_VALUE / 4), pairs);
    }

    @Test
    void aHierarchyOfMovedTrianglesFindsWhatANewOneFinds() {
        TriangleMesh moved = new TriangleMesh(
                Arrays.stream(confetti.xyz()).map(x -> x * x + 0.3).toArray(), confetti.triangles());
        TriangleBvh fresh = TriangleBvh.of(moved);
        TriangleBvh refitted = bvh.movedTo(moved);
        NearestPoint expected = new NearestPoint();
        NearestPoint found = new NearestPoint();
        SplittableRandom random = new SplittableRandom(6);
        for (int i = 0; i < 300; i++) {
            double x = 2 * random.nextDouble();
            double y = 2 * random.nextDouble();
            double z = 2 * random.nextDouble();
            fresh.nearest(x, y, z, 10, expected);
            refitted.nearest(x, y, z, 10, found);
            assertEquals(expected.triangle, found.triangle);
            assertEquals(expected.distanceSquared, found.distanceSquared);
        }
        assertThrows(IllegalArgumentException.class, () -> bvh.movedTo(Shapes.sphere(1, 8)));
    }

    @Test
    void aSphereIsFreeOfSelfIntersectionUntilAVertexIsPushedThrough() {
        TriangleMesh sphere = Shapes.sphere(10, 40);
        assertEquals(0, SelfIntersections.find(sphere, TriangleBvh.of(sphere), 100).length);
        double[] pushed = sphere.xyz().clone();
        pushed[2] = 10.5;
        TriangleMesh pierced = new TriangleMesh(pushed, sphere.triangles());
        assertTrue(SelfIntersections.find(pierced, TriangleBvh.of(pierced), 100).length > 0);
    }

    @Test
    void foldedAndTouchingTrianglesCount() {
        double[] xyz = {0, 0, 0, 4, 0, 0, 0, 4, 0, 1, 1, 0, 9, 9, 9, 8, 9, 0, 4, 4, 0};
        assertEquals(1, pairs(xyz, 0, 1, 2, 1, 0, 3), "folded flat onto its neighbour");
        assertEquals(0, pairs(xyz, 0, 1, 2, 2, 1, 6), "a flat neighbour is no fold");
        assertEquals(1, pairs(xyz, 0, 1, 2, 3, 4, 5), "a corner touching a face");
    }

    private static int pairs(double[] xyz, int... triangles) {
        TriangleMesh mesh = new TriangleMesh(xyz, triangles);
        return SelfIntersections.find(mesh, TriangleBvh.of(mesh), 10).length / 2;
    }

    @Test
    void theTreeDoesNotDependOnTheNumberOfThreads() throws Exception {
        TriangleMesh mesh = Shapes.confetti(60_000, 0.02, 9);
        int[][] found = new int[2][];
        for (int i = 0; i < 2; i++) {
            ForkJoinPool pool = new ForkJoinPool(i == 0 ? 1 : 5);
            found[i] = pool.submit(() -> SelfIntersections.find(mesh, TriangleBvh.of(mesh), 1 << 20)).get();
            pool.shutdown();
        }
        assertArrayEquals(found[0], found[1]);
    }
}
