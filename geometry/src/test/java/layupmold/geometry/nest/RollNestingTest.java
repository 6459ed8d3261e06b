package layupmold.geometry.nest;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.List;
import java.util.SplittableRandom;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Envelope;
import org.locationtech.jts.geom.GeometryFactory;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.io.ParseException;
import org.locationtech.jts.io.WKTReader;

class RollNestingTest {

    private static final GeometryFactory FACTORY = new GeometryFactory();

    private static Polygon polygon(String corners) {
        try {
            return (Polygon) new WKTReader(FACTORY).read("POLYGON ((" + corners + "))");
        } catch (ParseException e) {
            throw new IllegalArgumentException(e);
        }
    }

    /** A star-shaped blob with deep bays. */
    private static Polygon blob(SplittableRandom random, double radius) {
        Coordinate[] ring = new Coordinate[41];
        for (int k = 0; k < 40; k++) {
            double r = radius * (0.4 + 0.6 * random.nextDouble());
            ring[k] = new Coordinate(17 + r * Math.cos(Math.PI * k / 20), r * Math.sin(Math.PI * k / 20));
        }
        ring[40] = ring[0].copy();
        return FACTORY.createPolygon(ring);
    }

    private static void assertSound(RollLayout layout) {
        Polygon roll = (Polygon) FACTORY.toGeometry(new Envelope(
                layout.clearanceMm() - 1e-6, layout.lengthMm() - layout.clearanceMm() + 1e-6,
                layout.clearanceMm() - 1e-6, layout.rollWidthMm() - layout.clearanceMm() + 1e-6));
        List<Polygon> pieces = layout.placed().stream().map(RollLayout.Placed::outline).toList();
        for (int a = 0; a < pieces.size(); a++) {
            assertTrue(roll.covers(pieces.get(a)), "piece " + a + " sticks out");
            for (int b = a + 1; b < pieces.size(); b++) {
                double gap = pieces.get(a).distance(pieces.get(b));
                assertTrue(gap >= layout.clearanceMm() - 1e-6, "pieces " + a + " and " + b + " are " + gap + " apart");
            }
        }
    }

    @Test
    void blobsKeepTheirClearance() {
        SplittableRandom random = new SplittableRandom(11);
        List<ClothPiece> pieces = new ArrayList<>();
        for (int k = 0; k < 30; k++) {
            pieces.add(new ClothPiece("blob " + k, blob(random, 40 + 120 * random.nextDouble())));
        }
        RollLayout layout = RollNesting.nest(pieces, 1000, 5);
        assertEquals(30, layout.placed().size());
        assertSound(layout);
        assertEquals(layout, RollNesting.nest(pieces, 1000, 5));
    }

    /** Ten 300 × 200 rectangles with 10 mm between them: five abreast fill 1060 mm, two rows end at 630 mm. */
    @Test
    void rectanglesStandInRows() {
        List<ClothPiece> pieces = new ArrayList<>();
        for (int k = 0; k < 10; k++) {
            pieces.add(new ClothPiece("r" + k, polygon("0 0, 300 0, 300 200, 0 200, 0 0")));
        }
        RollLayout layout = RollNesting.nest(pieces, 1080, 10);
        assertSound(layout);
        assertEquals(630, layout.lengthMm(), 2);
        assertEquals(1 - 10 * 60_000 / (1080 * layout.lengthMm()), layout.wasteShare(), 1e-9);
    }

    /** Two thin L's on a narrow roll lie one in the other's bay when one is turned. */
    @Test
    void anglesInterlock() {
        Polygon angle = polygon("0 0, 400 0, 400 60, 60 60, 60 150, 0 150, 0 0");
        RollLayout layout = RollNesting.nest(List.of(new ClothPiece("a", angle), new ClothPiece("b", angle)), 240, 5);
        assertSound(layout);
        assertTrue(layout.lengthMm() < 500, "length " + layout.lengthMm());
    }

    @Test
    void aSmallPieceFillsAGap() {
        Polygon frame = polygon("0 0, 500 0, 500 190, 300 190, 300 60, 200 60, 200 190, 0 190, 0 0");
        Polygon small = polygon("0 0, 80 0, 80 80, 0 80, 0 0");
        RollLayout layout = RollNesting.nest(List.of(new ClothPiece("f", frame), new ClothPiece("s", small)), 202, 3);
        assertSound(layout);
        assertEquals(506, layout.lengthMm(), 2);
    }

    @Test
    void aPieceWiderThanTheRollIsNamed() {
        ClothPiece wide = new ClothPiece("wide", polygon("0 0, 10 0, 10 300, 0 300, 0 0"));
        RollLayout layout = RollNesting.nest(List.of(wide), 250, 5);
        assertEquals(List.of(wide), layout.unplaced());
        assertEquals(0, layout.wasteShare());
        assertThrows(IllegalArgumentException.class, () -> RollNesting.nest(List.of(), 10, 5));
    }
}
