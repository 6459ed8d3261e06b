package layupmold.service.kit;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import layupmold.geometry.kit.ClothLayouts;
import layupmold.geometry.nest.RollLayout;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Point;

/** A roll with its pieces, the roll's length to the right. */
final class ClothLayoutDrawing {

    private ClothLayoutDrawing() {
    }

    static Drawing of(ClothLayouts.ClothLayout cloth) {
        RollLayout layout = cloth.layout();
        double length = layout.lengthMm();
        double width = layout.rollWidthMm();
        List<Drawing.Stroke> strokes = new ArrayList<>();
        List<Drawing.Label> labels = new ArrayList<>();
        strokes.add(new Drawing.Stroke(Drawing.Pen.MARK, new double[] {0, 0, length, 0, length, width, 0, width, 0, 0}));
        for (RollLayout.Placed piece : layout.placed()) {
            strokes.add(Drawing.Stroke.of(Drawing.Pen.CUT, piece.outline().getExteriorRing()));
            Point inside = piece.outline().getInteriorPoint();
            labels.add(new Drawing.Label(inside.getX() - 25, inside.getY(), 12, piece.piece().name()));
            Coordinate start = piece.toRoll().transform(new Coordinate(0, 0), new Coordinate());
            double tip = piece.turned() ? -30 : 30;
            strokes.add(new Drawing.Stroke(Drawing.Pen.MARK, new double[] {start.x - tip, start.y, start.x + tip,
                start.y, start.x + 0.8 * tip, start.y + 3}));
        }
        labels.add(new Drawing.Label(5, width + 8, 14, String.format(Locale.ROOT,
                "%s, roll %.0f mm wide: %.2f m used, %.0f %% waste", Words.cloth(cloth.cloth()), width, length / 1000, 100 * layout.wasteShare())));
        return new Drawing(strokes, labels);
    }
}
