package layupmold.geometry.inspect;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Printer;
import layupmold.geometry.shapes.Revolved;
import layupmold.geometry.shapes.Soups;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.joml.Matrix4d;
import org.junit.jupiter.api.Test;

class BedFitTest {

    private static BedFit fit(TriangleMesh mesh, double bedX, double bedY) {
        return BedFit.of(mesh, new Printer(bedX, bedY, 200, 0.4, Printer.Material.PETG));
    }

    private static TriangleMesh turned(TriangleMesh mesh, double degrees) {
        return new RigidTransform(new Matrix4d().rotateZ(Math.toRadians(degrees))).apply(mesh);
    }

    /**
     * A rectangle p × q, p ≥ q, lies in a × b, a ≥ b, if p ≤ a and q ≤ b, or if p > a, q ≤ b and
     * b ≥ (2pqa + (p² − q²) √(p² + q² − a²)) / (p² + q²): Carver, Amer. Math. Monthly 64 (1957), 114 (from memory).
     */
    private static boolean carver(double p, double q, double a, double b) {
        return p <= a && q <= b || p > a && q <= b
                && b >= (2 * p * q * a + (p * p - q * q) * Math.sqrt(p * p + q * q - a * a)) / (p * p + q * q);
    }

    @Property(tries = 500)
    void aRectangleFitsWhereCarverSaysSo(
            @ForAll @DoubleRange(min = 20, max = 100) double a, @ForAll @DoubleRange(min = 0.5, max = 1) double proportion,
            @ForAll @DoubleRange(min = 0.2, max = 1.6) double p, @ForAll @DoubleRange(min = 0.02, max = 1) double q,
            @ForAll @DoubleRange(min = 0, max = 360) double turn) {
        double b = a * proportion;
        double longer = Math.max(p * a, q * b);
        double shorter = Math.min(p * a, q * b);
        TriangleMesh mesh = turned(Soups.box(longer, shorter, 5), turn);
        // Close to the limit rounding decides.
        if (carver(longer, shorter, 1.0001 * a, 1.0001 * b) == carver(longer, shorter, 0.9999 * a, 0.9999 * b)) {
            assertEquals(carver(longer, shorter, a, b), fit(mesh, a, b).fits());
            assertEquals(carver(longer, shorter, a, b), fit(mesh, b, a).fits(), "the bed turned");
        }
    }

    @Test
    void theLeastTurnIsThatOfATenThousandTried() {
        SplittableRandom random = new SplittableRandom(7);
        for (int i = 0; i < 20; i++) {
            TriangleMesh cloud = Soups.box(1, 1, 1);
            double[] xyz = cloud.xyz().clone();
            for (int k = 0; k < xyz.length; k++) {
                xyz[k] = random.nextDouble(100);
            }
            TriangleMesh mesh = new TriangleMesh(xyz, cloud.triangles());
            double bedX = 50 + random.nextDouble(50);
            double bedY = 50 + random.nextDouble(50);
            double tried = Double.POSITIVE_INFINITY;
            for (int turn = 0; turn < 10_000; turn++) {
                double[] box = turned(mesh, 180.0 * turn / 10_000).bounds();
                tried = Math.min(tried, Math.max((box[3] - box[0]) / bedX, (box[4] - box[1]) / bedY));
            }
            BedFit found = fit(mesh, bedX, bedY);
            double scale = found.leastBedXMm() / bedX;
            assertTrue(scale <= tried + 1e-9, scale + " is not the least, " + tried + " is less");
            assertEquals(tried, scale, 1e-3 * tried);
            // Turned as it says, it is as large as it says.
            double[] box = turned(mesh, found.turnDeg()).bounds();
            assertEquals(found.widthMm(), box[3] - box[0], 1e-9);
            assertEquals(found.depthMm(), box[4] - box[1], 1e-9);
        }
    }

    @Test
    void aDiscNeedsABedAsWideAsItself() {
        BedFit fit = fit(new Revolved().to(0, 0).to(30, 0).to(30, 5).to(0, 5).solid(720), 50, 50);
        assertFalse(fit.fits());
        assertEquals(60, fit.leastBedXMm(), 1e-2);
        assertEquals(60, fit.leastBedYMm(), 1e-2);
    }

    @Test
    void whatFitsAsItIsStaysAsItIs() {
        BedFit fit = fit(Soups.box(90, 40, 5), 100, 100);
        assertTrue(fit.fits());
        assertEquals(0, fit.turnDeg());
        assertEquals(90, fit.widthMm());
    }

    /** A long strip lies best along the diagonal: length L and width w span (L + w)/√2 both ways. */
    @Test
    void aStripLiesAlongTheDiagonalOfASquareBed() {
        BedFit fit = fit(Soups.box(130, 6, 5), 100, 100);
        assertTrue(fit.fits());
        assertEquals(45, fit.turnDeg(), 1e-9);
        assertEquals(136 / Math.sqrt(2), fit.leastBedXMm(), 1e-9);
    }

    @Test
    void whatIsTooTallDoesNotFit() {
        assertFalse(fit(Soups.box(20, 20, 201), 100, 100).fits());
        assertEquals(201, fit(Soups.box(20, 20, 201), 100, 100).heightMm());
    }
}
