package layupmold.geometry.testparts;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.shape.ShellRegion;
import org.junit.jupiter.api.Test;

class ClosedFormsTest {

    @Test
    void sphericalCapHasItsArchimedeanAreaAndVolume() {
        double r = 80;
        double t = 3;
        TestPart cap = ClosedForms.sphericalCap(r, 70, t, 360);
        requireClosed(cap);
        double share = 1 - Math.cos(Math.toRadians(70));
        assertEquals(1, cap.areaOf(ShellRegion.OUTER) / (2 * Math.PI * r * r * share), 2e-4);
        double volume = 2 * Math.PI / 3 * (r * r * r - Math.pow(r - t, 3)) * share;
        assertEquals(1, cap.mesh().volume() / volume, 5e-4);
    }

    @Test
    void coneHasItsSlantArea() {
        TestPart cone = ClosedForms.cone(60, 90, 2, 360);
        requireClosed(cone);
        assertEquals(1, cone.areaOf(ShellRegion.OUTER) / (Math.PI * 60 * Math.hypot(60, 90)), 2e-4);
    }

    @Test
    void trayIsExact() {
        TestPart tray = ClosedForms.tray(120, 80, 40, 3, 4);
        requireClosed(tray);
        assertEquals(120 * 80 + 2 * 200 * 40, tray.areaOf(ShellRegion.OUTER), 1e-6);
        assertEquals(120 * 80 * 40 - 114 * 74 * 37, tray.mesh().volume(), 1e-6);
        assertEquals(400, tray.loopLengthsMm()[0], 1e-9);
    }

    @Test
    void groovePlateIsExact() {
        TestPart plate = ClosedForms.groovePlate(100, 60, 3, 1, 0.5, 2);
        requireClosed(plate);
        assertEquals(99 * 60 + 2 * 60 * Math.hypot(0.5, 0.5), plate.areaOf(ShellRegion.OUTER), 1e-6);
        assertEquals(100 * 60 * 3 - 60 * 0.25, plate.mesh().volume(), 1e-6);
    }

    @Test
    void channelPlateIsExact() {
        TestPart plate = ClosedForms.channelPlate(100, 60, 3, 1.2, 1, 2);
        requireClosed(plate);
        assertEquals(100 * 60 + 2 * 60, plate.areaOf(ShellRegion.OUTER), 1e-6);
        assertEquals(100 * 60 * 3 - 60 * 1.2, plate.mesh().volume(), 1e-6);
    }

    @Test
    void groovedDiscHasItsGrooves() {
        TestPart plain = new GroovedDisc(50, 4, 1, 12, true, 1).part();
        TestPart disc = new GroovedDisc(50, 4, 1, 12, true, 1, 30, 120).part();
        requireClosed(plain);
        requireClosed(disc);
        requireClosed(new GroovedDisc(50, 4, 1, 12, false, 1, 30, 120).part());
        // Floors lose nothing to their sides' 1 mm over 30 mm, four times.
        assertEquals(plain.areaOf(ShellRegion.OUTER) + 4 * 30, disc.areaOf(ShellRegion.OUTER), 1.5);
        double grooves = (Math.sin(Math.toRadians(1)) * 4 / 2) * (50 * 50 - 20 * 20);
        double lost = plain.mesh().volume() - disc.mesh().volume();
        assertTrue(lost > grooves && lost < 1.2 * grooves, lost + " of " + grooves);
    }

    private static void requireClosed(TestPart part) {
        assertTrue(EdgeTopology.of(part.mesh()).isClosedAndOriented(), part::toString);
    }
}
