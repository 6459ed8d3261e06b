package layupmold.geometry.inspect;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Printer;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.shapes.Revolved;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.shapes.Soups;
import org.joml.Matrix4d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

class PrintFitTest {

    private static MeasuredSolid solid(TriangleMesh mesh) {
        return MeasuredSolid.of(mesh, new byte[mesh.triangleCount()]);
    }

    private static PrintFigures measure(TriangleMesh mesh, Recipe recipe) {
        MeasuredSolid solid = solid(mesh);
        return PrintFit.measure(solid, WallThickness.measure(solid, 1.2), recipe);
    }

    private static double overhangMm2(List<Overhang> overhangs) {
        return overhangs.stream().mapToDouble(Overhang::areaMm2).sum();
    }

    /**
     * The normal of a sphere points down by more than a where the latitude is below −a: a cap of area 2πR²(1 − sin a).
     * Latitude bands of half a degree end exactly there.
     */
    @ParameterizedTest
    @ValueSource(doubles = {30, 45, 60})
    void aSphereOverhangsByACap(double limitDeg) {
        double r = 25;
        TriangleMesh sphere = new RigidTransform(new Matrix4d().translate(0, 0, r)).apply(Shapes.sphere(r, 360));
        List<Overhang> overhangs = PrintFit.overhangs(solid(sphere), limitDeg);
        double cap = 2 * Math.PI * r * r * (1 - Math.sin(Math.toRadians(limitDeg)));
        assertEquals(1, overhangs.size());
        assertEquals(cap, overhangs.get(0).areaMm2(), 1e-3 * cap);
    }

    @Test
    void theSideOnTheBedIsNoOverhangAndALedgeIs() {
        assertEquals(List.of(), PrintFit.overhangs(solid(Soups.box(30, 20, 10)), 45));
        TriangleMesh mushroom = new Revolved().to(0, 0).to(10, 0).to(10, 20).to(15, 20).to(15, 25).to(0, 25).solid(360);
        List<Overhang> under = PrintFit.overhangs(solid(mushroom), 45);
        double ring = Math.PI * (225 - 100);
        assertEquals(ring, overhangMm2(under), 1e-3 * ring);
        assertEquals(20, under.get(0).at().z(), 1e-9);
    }

    @Test
    void aSlopeCountsFromItsAngleOn() {
        // A cone standing on its tip side: the wall leans 40° from the vertical over 10 mm.
        double out = 10 * Math.tan(Math.toRadians(40));
        TriangleMesh cone = new Revolved().to(0, 0).to(10, 0).to(10 + out, 10).to(0, 10).solid(360);
        assertEquals(0, overhangMm2(PrintFit.overhangs(solid(cone), 41)));
        // Lateral area of a frustum: π (r + R) s.
        double area = Math.PI * (20 + out) * 10 / Math.cos(Math.toRadians(40));
        assertEquals(area, overhangMm2(PrintFit.overhangs(solid(cone), 39)), 1e-3 * area);
    }

    @Test
    void separatePiecesAreListedLargestFirst() {
        TriangleMesh two = new Revolved().to(0, 0).to(10, 0).to(10, 5).to(12, 5).to(12, 8).to(10, 8).to(10, 12).to(16, 12)
                .to(16, 15).to(0, 15).solid(90);
        List<Overhang> overhangs = PrintFit.overhangs(solid(two), 45);
        assertEquals(2, overhangs.size());
        assertEquals(12, overhangs.get(0).at().z(), 1e-9);
        assertEquals(5, overhangs.get(1).at().z(), 1e-9);
    }

    /** A ledge around a pin: 2 π r w are 0.06 or 0.63 mm². */
    @Test
    void aPieceTooSmallToPrintIsNoOverhang() {
        for (double width : new double[] {0.01, 0.1}) {
            TriangleMesh pin = new Revolved().to(0, 0).to(1, 0).to(1, 5).to(1 + width, 5).to(1 + width, 6).to(0, 6).solid(64);
            assertEquals(width < 0.05 ? 0 : 1, PrintFit.overhangs(solid(pin), 45).size());
        }
    }

    /**
     * By hand: a block of 100 × 80 × 20 mm has 160 cm³ and 232 cm². Three lines of 0.4 mm all over take 232 × 0.12 =
     * 27.84 cm³; 15 % of the other 132.16 cm³ are 19.824 cm³. The sum, 47.664 cm³, weighs 60.53 g in PETG (1.27 g/cm³).
     * A 0.4 × 0.2 mm line at 60 mm/s lays 4.8 mm³/s: 9930 s, by 1.25 makes 3.448 h.
     */
    @Test
    void filamentAndTimeOfABlockByHand() {
        FilamentFigures filament = measure(Soups.box(100, 80, 20), Recipe.defaults()).filament();
        assertEquals(47_664, filament.printedMm3(), 1);
        assertEquals(60.53, filament.massG(), 0.01);
        assertEquals(3.448, filament.hours(), 0.001);
        assertTrue(filament.words().contains("27.8 cm³ walls and skins of 3 × 0.40 mm + 15 % of 132.2 cm³"),
                filament.words());
        assertTrue(filament.words().contains("(0.40 mm line × 0.20 mm layer × 60 mm/s) × 1.25"), filament.words());
    }

    /** A plate of 1 mm is all wall: 100 × 80 × 1 mm of PLA, 8 cm³ at 1.24 g/cm³; its edges would count twice. */
    @Test
    void aPlateThinnerThanItsWallsIsPrintedFull() {
        Recipe pla = Recipe.defaults().withPrinter(new Printer(256, 256, 256, 0.4, Printer.Material.PLA));
        FilamentFigures filament = measure(Soups.box(100, 80, 1), pla).filament();
        assertEquals(8_000, filament.printedMm3(), 1e-6);
        assertEquals(9.92, filament.massG(), 1e-3);
    }

    /** Softening points from the material table: PETG 77 °C, PLA 59 °C, PC 147 °C. */
    @ParameterizedTest
    @CsvSource({
        "PETG, 30, 47, first choice",
        "PLA, 50, 9, print it in PETG",
        "PETG, 80, -3, print it in ASA",
        "PC, 140, 7, no material of the table"})
    void theMaterialMustStandTheCure(Printer.Material material, double cureC, double marginC, String words) {
        HeatFigures heat = PrintFit.heat(material, cureC);
        assertEquals(marginC, heat.marginC(), 1e-9);
        assertTrue(heat.words().contains(words), heat.words());
    }
}
