package layupmold.geometry.drape;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.Stream;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.recipe.Weave;
import org.joml.Vector3d;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.LineString;
import org.locationtech.jts.geom.Point;
import org.locationtech.jts.geom.Polygon;

/** A spherical cap on which plain cloth locks in each quarter, laid again with darts. */
class DartsTest {

    private static final double R = 100;
    private static DrapedPly ply;

    @BeforeAll
    static void lay() {
        ply = Drape.ply(ToolSheet.of(Sheets.sphere(R, 80, 100)),
                new DrapeSpec(Weave.PLAIN, 0, new Vector3d(0, 0, R), 0, 40, 0), RigidTransform.identity());
    }

    /** From the closed form (see {@link SphereNetTest}) it shears to some 44°; with a dart a quarter to less than 40°. */
    @Test
    void clothLiesWithoutLockingOnceDartsAreCut() {
        assertTrue(ply.inOnePiece().maxShearDeg() > 40 && ply.inOnePiece().lockedMm2() > 100);
        assertEquals(4, ply.darts().size());
        assertTrue(ply.figures().maxShearDeg() < 40, "shear " + ply.figures().maxShearDeg());
        assertEquals(0, ply.figures().lockedMm2());
        assertEquals(0, ply.figures().uncoveredMm2());
        assertNull(ply.split());
        assertTrue(ply.findings().stream().anyMatch(f -> f.code().equals("cloth-needs-darts") && f.place() != null));
    }

    /** Sheared as it lies, the cloth has the cap's area, 2πR²(1 − cos 80°): no part is covered twice or left bare. */
    @Test
    void dartedClothHasTheCapsArea() {
        double cap = 2 * Math.PI * R * R * (1 - Math.cos(Math.toRadians(80)));
        assertEquals(cap, ply.figures().surfaceMm2(), 0.03 * cap);
        assertEquals(0, ply.figures().areaImbalance(), 0.01);
        // Cloth sheared by γ is cos γ of its flat area: sheared less, less of it is needed.
        assertTrue(ply.figures().flatMm2() < ply.inOnePiece().flatMm2(),
                ply.figures().flatMm2() + " against " + ply.inOnePiece().flatMm2());
    }

    /** Both sides of a dart meet on the tool: the same points of the sphere, once on each side. */
    @Test
    void theSlitIsTheOnlyNewEdge() {
        List<int[]> loops = EdgeTopology.of(ply.sheet().mesh()).boundaryLoops();
        assertEquals(1, loops.size());
        int added = 0;
        for (int v = 0; v < ply.sheet().mesh().vertexCount(); v++) {
            if (ply.sheet().isOnSlit(v)) {
                added++;
                assertEquals(R, ply.sheet().mesh().vertex(v).length(), 0.2);
            }
        }
        assertEquals(ply.darts().stream().mapToInt(d -> (d.left().length + d.right().length) / 2 - 1).sum(), added);
        assertEquals(ToolSheet.of(Sheets.sphere(R, 80, 100)).areaMm2(), ply.sheet().areaMm2(), 1e-6 * R * R);
    }

    @Test
    void theTemplateHasTheDarts() {
        FlatPattern pattern = FlatPattern.of(ply, 20);
        assertEquals(4, pattern.darts().size());
        for (int k = 0; k < 4; k++) {
            Polygon dart = pattern.darts().get(k);
            assertTrue(pattern.outline().buffer(0.01).covers(dart));
            assertTrue(dart.distance(pattern.outline().getExteriorRing()) < 0.01, "it is open at the edge");
            // Nearly a wedge: its width at the trim line, grown in proportion through the margin.
            double width = ply.darts().get(k).widthMm();
            assertTrue(width > 5 && width < 25, "width " + width);
            assertEquals(dart.getLength() / 2 * width / 2, dart.getArea(), 0.5 * dart.getArea());
        }
        // The trim line runs from dart to dart.
        assertEquals(4, pattern.trimLines().size());
        for (LineString line : pattern.trimLines()) {
            assertTrue(endsAtADart(line.getStartPoint()) && endsAtADart(line.getEndPoint()), line.toString());
        }
    }

    private static boolean endsAtADart(Point point) {
        return ply.darts().stream().flatMap(dart -> Stream.of(dart.left(), dart.right()))
                .anyMatch(side -> Math.hypot(side[side.length - 2] - point.getX(), side[side.length - 1] - point.getY())
                        < 1e-9);
    }
}
