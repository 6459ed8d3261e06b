package layupmold.geometry.mesh.prepare;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.LengthUnit;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.shapes.Soups;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PartCleanerTest {

    static CleanPart clean(TriangleMesh mesh) {
        return PartCleaner.clean(new PartFile(mesh, "stl-binary", null, List.of()), Recipe.defaults());
    }

    private static Rejection refusal(TriangleMesh mesh) {
        return assertThrows(Rejection.class, () -> clean(mesh));
    }

    private static List<String> codes(CleanPart part) {
        return part.findings().stream().map(Finding::code).toList();
    }

    @Test
    void tornAndTurnedSphereComesBackWhole() {
        TriangleMesh ball = Shapes.sphere(80, 60);
        for (double turned : new double[] {0, 0.3, 0.7, 1}) {
            TriangleMesh posted = Soups.unwelded(Soups.scrambled(ball, turned, 5));
            CleanPart part = clean(posted);
            assertTrue(part.closed());
            assertTrue(part.topology().isClosedAndOriented());
            assertEquals(ball.vertexCount(), part.mesh().vertexCount());
            assertEquals(posted.vertexCount() - ball.vertexCount(), part.counts().weldedVertices());
            assertEquals(ball.volume(), part.mesh().volume(), 1e-9 * ball.volume());
            assertEquals(turned, part.counts().flippedTriangles() / (double) ball.triangleCount(), 0.02);
        }
    }

    @Test
    void everyTriangleKnowsItsPostedIndex() {
        TriangleMesh posted = Soups.scrambled(Soups.union(Soups.box(3, 3, 3),
                Soups.moved(Shapes.sphere(20, 12), 50, 0, 0)), 0.4, 11);
        CleanPart part = clean(posted);
        for (int t = 0; t < part.mesh().triangleCount(); t++) {
            assertEquals(0, part.mesh().centroid(t).distance(posted.centroid(part.postedTriangle()[t])), 1e-12);
        }
    }

    @Test
    void unitOfTheFileWins() {
        PartFile inches = new PartFile(Soups.box(2, 3, 4), "3mf", LengthUnit.INCH, List.of());
        assertArrayEquals(new double[] {0, 0, 0, 50.8, 76.2, 101.6},
                PartCleaner.clean(inches, Recipe.defaults()).mesh().bounds(), 1e-12);
    }

    @Test
    void implausibleSizeNamesTheLikelyUnit() {
        Finding finding = clean(Soups.box(0.3, 0.2, 0.1)).findings().get(0);
        assertEquals("size-implausible", finding.code());
        assertTrue(finding.message().contains("in m it would measure 300 mm"), finding.message());
        assertTrue(codes(clean(Soups.box(30, 20, 10))).isEmpty());
    }

    @ParameterizedTest
    @ValueSource(doubles = {1e-4, 1e5})
    void impossibleSizeIsRefused(double sizeMm) {
        Rejection refused = assertThrows(Rejection.class, () -> clean(Soups.box(sizeMm, sizeMm, sizeMm)));
        assertEquals("size-implausible", refused.finding().code());
        assertEquals(sizeMm, refused.finding().figure(), 1e-9 * sizeMm);
    }

    @Test
    void largestPieceIsKeptAndOthersAreNamed() {
        CleanPart part = clean(Soups.union(Soups.moved(Soups.box(2, 4, 6), 100, 0, 0), Shapes.sphere(30, 20)));
        assertEquals(2, part.counts().components());
        assertEquals(Shapes.sphere(30, 20).triangleCount(), part.mesh().triangleCount());
        Piece other = part.others().get(0);
        assertEquals(88, other.areaMm2(), 1e-9);
        assertEquals(101, other.place().x(), 1e-12);
        assertEquals(12, other.triangles());
        assertEquals(List.of("piece-left-out"), codes(part));
    }

    @Test
    void doubledShellIsOneShell() {
        TriangleMesh ball = Shapes.sphere(40, 20);
        for (TriangleMesh second : List.of(ball, ball.flipped())) {
            CleanPart part = clean(Soups.union(ball, second));
            assertTrue(part.closed());
            assertEquals(ball.triangleCount(), part.counts().duplicateTriangles());
            assertEquals(ball.volume(), part.mesh().volume(), 1e-9 * ball.volume());
        }
    }

    @Test
    void boxesThatShareAnEdgeComeApart() {
        TriangleMesh big = Soups.box(20, 20, 20);
        CleanPart part = clean(Soups.union(big, Soups.moved(Soups.box(10, 10, 20), -10, -10, 0)));
        assertTrue(part.topology().isClosedAndOriented());
        assertEquals(8000, part.mesh().volume(), 1e-9);
        assertEquals(1, part.counts().nonManifoldEdges());
        assertTrue(codes(part).contains("edges-non-manifold"));
    }

    @Test
    void sheetStandingOnABoxComesOff() {
        TriangleMesh sheet = new TriangleMesh(new double[] {0, 0, 20, 20, 20, 20, 20, 20, 30}, new int[] {0, 1, 2});
        CleanPart part = clean(Soups.union(Soups.box(20, 20, 20), sheet));
        assertTrue(part.topology().isClosedAndOriented());
        assertEquals(8000, part.mesh().volume(), 1e-9);
    }

    @Test
    void surfaceWithOneSideIsRefused() {
        int n = 40;
        double[] xyz = new double[6 * n];
        int[] triangles = new int[6 * n];
        for (int i = 0; i < n; i++) {
            double a = 2 * Math.PI * i / n;
            for (int side = 0; side < 2; side++) {
                double r = 50 + (2 * side - 1) * 10 * Math.cos(a / 2);
                xyz[6 * i + 3 * side] = r * Math.cos(a);
                xyz[6 * i + 3 * side + 1] = r * Math.sin(a);
                xyz[6 * i + 3 * side + 2] = (2 * side - 1) * 10 * Math.sin(a / 2);
            }
            boolean last = i == n - 1;
            int p = last ? 1 : 2 * i + 2;
            int q = last ? 0 : 2 * i + 3;
            System.arraycopy(new int[] {2 * i, p, 2 * i + 1, 2 * i + 1, p, q}, 0, triangles, 6 * i, 6);
        }
        assertEquals("one-sided", refusal(new TriangleMesh(xyz, triangles)).finding().code());
    }

    @Test
    void confettiIsRefused() {
        assertEquals("fragmented", refusal(Shapes.confetti(500, 0.1, 3)).finding().code());
        assertEquals("no-surface", refusal(new TriangleMesh(new double[9], new int[] {0, 1, 2})).finding().code());
    }

    @Test
    void openSheetStaysOpen() {
        CleanPart part = clean(Soups.scrambled(Shapes.sheet(100, 20), 0.4, 2));
        assertFalse(part.closed());
        assertEquals(0, part.topology().nonManifoldCount());
        assertEquals(1, part.topology().boundaryLoops().size());
    }
}
