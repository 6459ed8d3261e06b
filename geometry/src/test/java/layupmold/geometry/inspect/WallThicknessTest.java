package layupmold.geometry.inspect;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.concurrent.ForkJoinPool;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Revolved;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.shapes.Soups;
import org.joml.Matrix4d;
import org.junit.jupiter.api.Test;

class WallThicknessTest {

    private static final double DIAGONAL = Math.sqrt(2);

    private static ThicknessFigures measure(TriangleMesh mesh, double limitMm) {
        return WallThickness.measure(MeasuredSolid.of(mesh, new byte[mesh.triangleCount()]), limitMm, 4 * limitMm,
                40_000).figures();
    }

    /** A square plate, side lengths a × a × t. */
    private static TriangleMesh plate(double a, double t) {
        double r = a / 2 * DIAGONAL;
        return new Revolved().to(0, 0).to(r, 0).to(r, t).to(0, t).solid(4);
    }

    /** A round block with a hemispherical cavity of radius 30 sunk into its top. */
    private static TriangleMesh block(double radius, double height, int steps) {
        return new Revolved().to(0, 0).to(radius, 0).to(radius, height).arc(0, height, 30, 0, -90, steps).solid(120);
    }

    @Test
    void aPlateIsAsThickAsItIs() {
        ThicknessFigures figures = measure(plate(100, 3), 3.1);
        assertEquals(3, figures.leastMm(), 1e-6);
        assertEquals(3, figures.leastRayMm(), 1e-6);
        assertEquals(3, figures.p1Mm(), 1e-6);
        // Top and bottom are thin, the four sides are not: 2 a² of 2 a² + 4 a t.
        assertEquals(20_000 / 21_200.0, figures.thinShare(), 1e-3);
        assertEquals(1, figures.thinRegions().size());
        assertEquals(10_000, figures.thinRegions().get(0).areaMm2(), 15);
        assertEquals(3, figures.thinRegions().get(0).leastMm(), 1e-6);
    }

    @Test
    void aPlateOverTheLimitHasNoThinRegion() {
        ThicknessFigures figures = measure(plate(100, 3), 2.9);
        assertEquals(0, figures.thinShare());
        assertTrue(figures.thinRegions().isEmpty());
    }

    @Test
    void aSphericalShellIsAsThickAsItsRadiiDiffer() {
        TriangleMesh outer = Shapes.sphere(50, 90);
        TriangleMesh inner = Shapes.sphere(47, 90).flipped();
        ThicknessFigures figures = measure(joined(outer, inner), 3);
        // Facets of both spheres are parallel, cos(half the largest facet's angle) nearer together than the radii.
        double chord = Math.cos(Math.PI / 90 / DIAGONAL);
        assertTrue(figures.leastMm() >= 3 * chord * chord - 1e-6, "least " + figures.leastMm());
        assertTrue(figures.leastMm() <= 3, "least " + figures.leastMm());
        assertEquals(3, figures.p5Mm(), 0.003);
    }

    private static TriangleMesh joined(TriangleMesh a, TriangleMesh b) {
        double[] xyz = new double[a.xyz().length + b.xyz().length];
        System.arraycopy(a.xyz(), 0, xyz, 0, a.xyz().length);
        System.arraycopy(b.xyz(), 0, xyz, a.xyz().length, b.xyz().length);
        int[] triangles = new int[a.triangles().length + b.triangles().length];
        System.arraycopy(a.triangles(), 0, triangles, 0, a.triangles().length);
        for (int i = 0; i < b.triangles().length; i++) {
            triangles[a.triangles().length + i] = b.triangles()[i] + a.vertexCount();
        }
        return new TriangleMesh(xyz, triangles);
    }

    @Test
    void aCavityNearTheBaseIsThinnestUnderItsLowestPoint() {
        ThicknessFigures figures = measure(block(40, 34, 60), 5);
        assertEquals(4, figures.leastMm(), 0.02);
        assertEquals(4, figures.leastRayMm(), 0.02);
        assertTrue(Math.hypot(figures.leastAt().x(), figures.leastAt().y()) < 1, "on the axis: " + figures.leastAt());
        // A ball that touches a sphere cavity of radius R from below and the base at height h under its lowest point has
        // diameter t at the polar angle a where R cos a + t/2 cos a + t/2 = R + h: under the limit t within a cap.
        double cos = (30 + 4 - 2.5) / (30 + 2.5);
        double capArea = 2 * Math.PI * 900 * (1 - cos);
        double discArea = Math.PI * Math.pow((30 + 2.5) * Math.sin(Math.acos(cos)), 2);
        assertEquals(1, figures.thinRegions().size());
        assertEquals((capArea + discArea) / 2, figures.thinRegions().get(0).areaMm2(), 0.02 * capArea);
    }

    @Test
    void aCavityNearTheSideIsThinnestAtTheRimWithoutTakingTheRimsEdgeForAWall() {
        ThicknessFigures figures = measure(block(32.5, 60, 60), 3);
        assertEquals(2.5, figures.leastMm(), 0.02);
        assertEquals(60, figures.leastAt().z(), 0.5);
    }

    @Test
    void draftedEdgesAreNoWallsButFeatherEdgesAre() {
        // Frustum: edges of 70° below and 110° above, 10 mm high.
        double run = 10 / Math.tan(Math.toRadians(70));
        ThicknessFigures blunt = measure(
                new Revolved().to(0, 0).to(30, 0).to(30 - run, 10).to(0, 10).solid(64), 3);
        assertEquals(10, blunt.leastMm(), 1e-3);
        assertEquals(0, blunt.thinShare());
        ThicknessFigures feather = measure(
                new Revolved().to(0, 0).to(30, 0).to(20, 10).to(0, 10).solid(64), 3);
        assertTrue(feather.leastMm() < 0.1, "a 45° edge is a feather edge: " + feather.leastMm());
    }

    /** A needle on a block: half its lateral area π r s / 2 is 0.02 or 2.4 mm². */
    @Test
    void aThinPlaceTooSmallToPrintCountsAsNone() {
        for (double width : new double[] {0.1, 1}) {
            ThicknessFigures figures = measure(
                    new Revolved().to(0, 0).to(20, 0).to(20, 20).to(width / 2, 20).to(0, 20 + 3 * width).solid(32), 1.1);
            assertEquals(width < 1 ? 0 : 1, figures.thinRegions().size());
            assertEquals(width < 1, figures.leastMm() >= 1.1, "least " + figures.leastMm());
        }
    }

    /** More triangles than samples, so that each sample stands for many: those that hit a needle by chance say little. */
    @Test
    void thinPlacesTooSmallToPrintCountAsNoneInFineMeshesToo() {
        TriangleMesh needle =
                new Revolved().to(0, 0).to(5, 0).to(5, 5).to(0.05, 5).to(0, 5.3).solid(32);
        TriangleMesh all = needle;
        for (int copy = 1; copy < 200; copy++) {
            all = joined(all, Soups.moved(needle, 12.0 * (copy % 20), 12.0 * (copy / 20), 0));
        }
        ThicknessFigures figures = measure(all, 1.1);
        assertEquals(List.of(), figures.thinRegions());
        assertTrue(figures.leastMm() >= 1.1, "least " + figures.leastMm());
    }

    @Test
    void aFacetedBallIsNotThinAtItsEdges() {
        TriangleMesh ball = Shapes.sphere(9, 24);
        ThicknessFigures figures = WallThickness
                .measure(MeasuredSolid.of(ball, new byte[ball.triangleCount()]), 3, 20, 2000).figures();
        // Opposite facets are 2 R cos(half a facet) apart.
        assertTrue(figures.leastMm() > 18 * Math.pow(Math.cos(Math.PI / 24), 2), "least " + figures.leastMm());
        assertTrue(figures.leastMm() <= 18, "least " + figures.leastMm());
    }

    @Test
    void aThickBlockHasNoLeastPlace() {
        ThicknessFigures figures = measure(plate(100, 60), 3);
        assertEquals(12, figures.leastMm(), "the cap is four times the limit");
        assertNull(figures.leastAt());
    }

    @Test
    void turningAndSplittingTheMeshChangesLittle() {
        ThicknessFigures plain = measure(block(40, 34, 60), 5);
        RigidTransform turn = new RigidTransform(new Matrix4d().rotateZ(0.7).translate(3, -2, 0));
        ThicknessFigures turned = measure(turn.apply(block(40, 34, 60)), 5);
        ThicknessFigures finer = measure(block(40, 34, 100), 5);
        assertEquals(plain.leastMm(), turned.leastMm(), 1e-4);
        assertEquals(plain.thinShare(), turned.thinShare(), 1e-3);
        assertEquals(plain.thinShare(), finer.thinShare(), 2e-3);
        // With t(radius) as above, 5 % of the whole surface is thinner than 6.89 mm.
        assertEquals(6.89, plain.p5Mm(), 0.07);
        assertEquals(6.89, finer.p5Mm(), 0.07);
    }

    @Test
    void theFiguresDoNotDependOnTheNumberOfThreads() throws Exception {
        TriangleMesh mesh = block(40, 34, 40);
        ThicknessFigures[] figures = new ThicknessFigures[2];
        for (int i = 0; i < 2; i++) {
            ForkJoinPool pool = new ForkJoinPool(i == 0 ? 1 : 5);
            figures[i] = pool.submit(() -> measure(mesh, 5)).get();
            pool.shutdown();
        }
        assertEquals(figures[0], figures[1]);
    }

    @Test
    void skinVolumeOfAThickBlockIsAreaTimesDepthAndOfAThinPlateItsVolume() {
        TriangleMesh thick = plate(100, 60);
        WallThickness measured = WallThickness.measure(MeasuredSolid.of(thick, new byte[thick.triangleCount()]), 3);
        assertEquals(thick.area() * 1.2, measured.skinVolume(1.2), 1e-6 * thick.area());
        TriangleMesh thin = plate(100, 2);
        measured = WallThickness.measure(MeasuredSolid.of(thin, new byte[thin.triangleCount()]), 3);
        // Both faces count half the thickness each; the four sides add their own 1.2 mm.
        assertEquals(100 * 100 * 2 + 4 * 100 * 2 * 1.2, measured.skinVolume(1.2), 30);
    }
}
