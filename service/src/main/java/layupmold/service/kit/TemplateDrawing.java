package layupmold.service.kit;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import layupmold.geometry.drape.FlatPattern;
import layupmold.geometry.kit.ClothLayouts;
import layupmold.geometry.kit.PlyTemplate;
import layupmold.geometry.recipe.Ply;
import org.locationtech.jts.geom.Polygon;

/** One ply's template at full size: outline, trim lines, notches, darts, warp arrow, start mark, and what it is. */
final class TemplateDrawing {

    private static final double ARROW_MM = 50;
    private static final double MARK_MM = 5;

    private TemplateDrawing() {
    }

    static Drawing of(PlyTemplate template) {
        FlatPattern pattern = template.pattern();
        List<Drawing.Stroke> strokes = new ArrayList<>();
        strokes.add(Drawing.Stroke.of(Drawing.Pen.CUT, pattern.outline().getExteriorRing()));
        pattern.trimLines().forEach(line -> strokes.add(Drawing.Stroke.of(Drawing.Pen.TRIM, line)));
        pattern.notches().forEach(line -> strokes.add(Drawing.Stroke.of(Drawing.Pen.CUT, line)));
        for (Polygon dart : pattern.darts()) {
            strokes.add(Drawing.Stroke.of(Drawing.Pen.DART, dart.getExteriorRing()));
        }
        if (pattern.split() != null) {
            strokes.add(Drawing.Stroke.of(Drawing.Pen.SPLIT, pattern.split()));
        }
        strokes.add(mark(-MARK_MM, 0, MARK_MM, 0));
        strokes.add(mark(0, -MARK_MM, 0, MARK_MM));
        double half = ARROW_MM / 2;
        double y = 2 * MARK_MM;
        strokes.add(mark(-half, y, half, y, half - 4, y + 2));
        strokes.add(mark(half, y, half - 4, y - 2));
        return new Drawing(strokes, List.of(
                new Drawing.Label(-half, y + 3, 3, "warp"),
                new Drawing.Label(-half, -9, 4, template.part() + "  ply " + template.number() + "/" + template.of()),
                new Drawing.Label(-half, -14, 3, cloth(template.ply())),
                new Drawing.Label(-half, -19, 3, String.format(Locale.ROOT,
                        "this side up; margin %.0f mm; cross = start mark", pattern.marginMm()))));
    }

    private static Drawing.Stroke mark(double... xy) {
        return new Drawing.Stroke(Drawing.Pen.MARK, xy);
    }

    /** The cloth in words. */
    static String cloth(Ply ply) {
        return String.format(Locale.ROOT, "%s at %.0f°", Words.cloth(ClothLayouts.Cloth.of(ply)), ply.angleDeg());
    }
}
