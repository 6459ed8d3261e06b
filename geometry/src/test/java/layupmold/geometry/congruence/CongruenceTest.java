package layupmold.geometry.congruence;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Optional;
import java.util.SplittableRandom;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.testparts.ClosedForms;
import layupmold.geometry.testparts.RandomShells;
import layupmold.geometry.testparts.ShellSpec;
import org.joml.Matrix4d;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Shapes against copies of themselves, moved by known isometries, and against copies that are a little off. */
class CongruenceTest {

    private static final double TOLERANCE = Congruence.DEFAULT_TOLERANCE_MM;

    private static TriangleMesh shell(long seed) {
        return RandomShells.shell(ShellSpec.random(seed).withPlacement(ShellSpec.Placement.TURNED)).mesh();
    }

    private static Optional<Congruence.Match> find(TriangleMesh a, TriangleMesh b) {
        return Congruence.find(WeldedShape.of(a, 1), WeldedShape.of(b, 1), TOLERANCE);
    }

    static Isometry random(SplittableRandom random, boolean mirrored) {
        Matrix4d matrix = new Matrix4d()
                .translate(random.nextDouble(-200, 200), random.nextDouble(-200, 200), random.nextDouble(-200, 200))
                .rotateXYZ(random.nextDouble(6.3), random.nextDouble(6.3), random.nextDouble(6.3));
        return new Isometry(mirrored ? matrix.scale(1, -1, 1) : matrix);
    }

    /** The mesh as another program would write it: moved, rounded to 32 bits, vertices and triangles in other orders. */
    static TriangleMesh moved(TriangleMesh mesh, Isometry map, SplittableRandom random) {
        int[] place = shuffled(mesh.vertexCount(), random);
        double[] xyz = new double[mesh.xyz().length];
        for (int v = 0; v < mesh.vertexCount(); v++) {
            Vector3d p = map.apply(mesh.vertex(v));
            xyz[3 * place[v]] = (float) p.x;
            xyz[3 * place[v] + 1] = (float) p.y;
            xyz[3 * place[v] + 2] = (float) p.z;
        }
        int[] order = shuffled(mesh.triangleCount(), random);
        int[] triangles = new int[mesh.triangles().length];
        for (int t = 0; t < mesh.triangleCount(); t++) {
            int turn = random.nextInt(3);
            for (int k = 0; k < 3; k++) {
                triangles[3 * order[t] + k] = place[mesh.triangles()[3 * t + (k + turn) % 3]];
            }
        }
        TriangleMesh result = new TriangleMesh(xyz, triangles);
        return map.mirrors() ? result.flipped() : result;
    }

    private static int[] shuffled(int n, SplittableRandom random) {
        int[] order = new int[n];
        for (int i = 0; i < n; i++) {
            int k = random.nextInt(i + 1);
            order[i] = order[k];
            order[k] = i;
        }
        return order;
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12})
    void aMovedOrMirroredShellIsRecognisedAndItsMapIsTheOneUsed(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        TriangleMesh shell = shell(seed);
        for (boolean mirrored : new boolean[] {false, true}) {
            Isometry used = random(random, mirrored);
            Congruence.Match match = find(shell, moved(shell, used, random)).orElseThrow();
            assertEquals(mirrored, match.map().mirrors());
            double off = 0;
            for (int v = 0; v < shell.vertexCount(); v++) {
                off = Math.max(off, used.apply(shell.vertex(v)).distance(match.map().apply(shell.vertex(v))));
            }
            // 32-bit coordinates up to some 500 mm are rounded by at most 2^-16 mm.
            assertTrue(off < 1e-4, "map off by " + off);
            assertTrue(match.deviationMm() < 1e-4, "deviation " + match.deviationMm());
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void oneVertexOutOfPlaceIsAnotherShape(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        TriangleMesh shell = shell(seed);
        TriangleMesh twin = moved(shell, random(random, seed % 2 == 0), random);
        double[] xyz = twin.xyz().clone();
        xyz[3 * random.nextInt(twin.vertexCount())] += 3 * TOLERANCE;
        assertFalse(find(shell, new TriangleMesh(xyz, twin.triangles())).isPresent());
    }

    /** Slivers are left out: vertices closer together than twice the tolerance cannot be told apart. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4})
    void noiseWithinTheToleranceIsFoundWithItsSize(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        TriangleMesh shell = RandomShells.shell(ShellSpec.random(seed).withSlivers(false)
                .withPlacement(ShellSpec.Placement.TURNED)).mesh();
        TriangleMesh twin = moved(shell, random(random, true), random);
        double[] xyz = twin.xyz().clone();
        for (int i = 0; i < xyz.length; i++) {
            xyz[i] += random.nextDouble(-0.5, 0.5) * TOLERANCE;
        }
        Congruence.Match match = find(shell, new TriangleMesh(xyz, twin.triangles())).orElseThrow();
        assertTrue(match.deviationMm() > 0.3 * TOLERANCE && match.deviationMm() <= TOLERANCE,
                "deviation " + match.deviationMm());
    }

    @Test
    void otherTrianglesOnTheSameVerticesAreAnotherShape() {
        TriangleMesh sphere = Shapes.sphere(30, 12);
        int[] triangles = sphere.triangles().clone();
        int[] flipped = flipOneEdge(sphere);
        assertFalse(find(sphere, new TriangleMesh(sphere.xyz(), flipped)).isPresent());
        assertTrue(find(sphere, new TriangleMesh(sphere.xyz(), triangles)).isPresent());
    }

    /** Gives the first two triangles that share an edge the other diagonal. */
    private static int[] flipOneEdge(TriangleMesh mesh) {
        int[] corners = mesh.triangles().clone();
        for (int i = 0; i < 3; i++) {
            for (int h = 3; h < corners.length; h++) {
                int next = h - h % 3 + (h + 1) % 3;
                if (corners[h] == corners[(i + 1) % 3] && corners[next] == corners[i]) {
                    int apex = corners[(i + 2) % 3];
                    int other = corners[h - h % 3 + (h + 2) % 3];
                    corners[(i + 1) % 3] = other;
                    corners[h] = apex;
                    // Now the two share the edge from apex to other.
                    return corners;
                }
            }
        }
        throw new IllegalStateException("no edge");
    }

    /** A double pyramid over a rectangle is its own mirror image, so a turn is enough and preferred. */
    @Test
    void aSymmetricShapeNeedsNoMirror() {
        TriangleMesh pyramids = new TriangleMesh(
                new double[] {30, 20, 0, -30, 20, 0, -30, -20, 0, 30, -20, 0, 0, 0, 50, 0, 0, -50},
                new int[] {0, 1, 4, 1, 2, 4, 2, 3, 4, 3, 0, 4, 1, 0, 5, 2, 1, 5, 3, 2, 5, 0, 3, 5});
        SplittableRandom random = new SplittableRandom(7);
        Congruence.Match match = find(pyramids, moved(pyramids, random(random, true), random)).orElseThrow();
        assertFalse(match.map().mirrors());
    }

    /** Turned about its axis it looks the same, but the diagonals of its quads lean one way. */
    @Test
    void aMirroredMeshOfABodyOfRevolutionIsFoundByItsDiagonals() {
        SplittableRandom random = new SplittableRandom(7);
        TriangleMesh cap = ClosedForms.sphericalCap(60, 75, 3, 72).mesh();
        assertTrue(find(cap, moved(cap, random(random, true), random)).orElseThrow().map().mirrors());
        assertFalse(find(cap, moved(cap, random(random, false), random)).orElseThrow().map().mirrors());
    }

    @Test
    void aSphereWithAllVerticesAlikeIsFoundAndAnotherIsNot() {
        SplittableRandom random = new SplittableRandom(8);
        TriangleMesh sphere = Shapes.sphere(40, 24);
        assertTrue(find(sphere, moved(sphere, random(random, true), random)).isPresent());
        assertFalse(find(sphere, Shapes.sphere(40.1, 24)).isPresent());
    }

    @Test
    void partsOfDifferentSizeAreNotAlike() {
        assertFalse(find(ClosedForms.tray(60, 40, 20, 2, 5).mesh(), ClosedForms.tray(60, 40, 20.1, 2, 5).mesh())
                .isPresent());
    }
}
