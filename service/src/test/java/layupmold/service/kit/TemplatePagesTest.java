package layupmold.service.kit;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayInputStream;
import java.util.ArrayList;
import java.util.List;
import javax.xml.parsers.DocumentBuilderFactory;
import layupmold.geometry.kit.KitSpec;
import layupmold.geometry.kit.PlyTemplate;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.locationtech.jts.geom.Coordinate;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;

/** Templates must measure right when printed: everything is read back from the files themselves. */
class TemplatePagesTest {

    private static final double TOLERANCE_MM = 0.1;

    @ParameterizedTest
    @EnumSource(KitSpec.Paper.class)
    void outlineAndScaleReadBackAtFullSize(KitSpec.Paper paper) {
        PlyTemplate template = KitSamples.dome("breast shell").templates().get(1);
        byte[] pdf = TiledPdf.write(List.of(TemplateDrawing.of(template)), List.of("ply"), paper);
        Coordinate[] outline = template.pattern().outline().getExteriorRing().getCoordinates();
        List<List<DrawnPdf.Line>> pages = DrawnPdf.read(pdf);
        assertTrue(pages.size() >= 2);
        List<double[]> origins = new ArrayList<>();
        for (List<DrawnPdf.Line> lines : pages) {
            DrawnPdf.Line scale = lines.stream().filter(l -> l.xy().length == 4 && Math.abs(l.xy()[1] - 7) < 0.01
                    && Math.abs(l.xy()[3] - 7) < 0.01).findFirst().orElseThrow();
            assertEquals(100, scale.length(), TOLERANCE_MM);
            DrawnPdf.Line cut = lines.stream().filter(l -> l.xy().length == 2 * outline.length).findFirst()
                    .orElse(null);
            if (cut == null) {
                continue;
            }
            double dx = cut.xy()[0] - outline[0].x;
            double dy = cut.xy()[1] - outline[0].y;
            origins.add(new double[] {dx, dy});
            for (int k = 0; k < outline.length; k++) {
                assertEquals(outline[k].x + dx, cut.xy()[2 * k], TOLERANCE_MM);
                assertEquals(outline[k].y + dy, cut.xy()[2 * k + 1], TOLERANCE_MM);
            }
        }
        assertCrossesMeet(pages, origins);
    }

    /** Crosses of a page, moved into the drawing, fall on crosses of its neighbours. */
    private static void assertCrossesMeet(List<List<DrawnPdf.Line>> pages, List<double[]> origins) {
        assertEquals(pages.size(), origins.size(), "every page here shows some of the outline");
        List<List<double[]>> crosses = new ArrayList<>();
        for (int p = 0; p < pages.size(); p++) {
            double[] origin = origins.get(p);
            crosses.add(pages.get(p).stream().filter(l -> l.widthMm() < 0.2 && l.xy()[1] == l.xy()[3])
                    .map(l -> new double[] {(l.xy()[0] + l.xy()[2]) / 2 - origin[0], l.xy()[1] - origin[1]}).toList());
            assertEquals(4, crosses.get(p).size());
        }
        int shared = 0;
        for (int p = 0; p < crosses.size(); p++) {
            for (int q = p + 1; q < crosses.size(); q++) {
                for (double[] a : crosses.get(p)) {
                    for (double[] b : crosses.get(q)) {
                        shared += Math.hypot(a[0] - b[0], a[1] - b[1]) < TOLERANCE_MM ? 1 : 0;
                    }
                }
            }
        }
        assertTrue(shared >= 2 * (pages.size() - 1), shared + " crosses meet on " + pages.size() + " pages");
    }

    @Test
    void svgIsDrawnInMillimetres() throws Exception {
        PlyTemplate template = KitSamples.dome("breast shell").templates().get(0);
        byte[] svg = DrawingSvg.write(TemplateDrawing.of(template), "ply <1> & more");
        Element root = DocumentBuilderFactory.newInstance().newDocumentBuilder().parse(new ByteArrayInputStream(svg))
                .getDocumentElement();
        String[] view = root.getAttribute("viewBox").split(" ");
        assertEquals(view[2] + "mm", root.getAttribute("width"));
        assertEquals(view[3] + "mm", root.getAttribute("height"));
        assertEquals("ply <1> & more", root.getElementsByTagName("title").item(0).getTextContent());
        NodeList lines = root.getElementsByTagName("polyline");
        Element cut = (Element) lines.item(0);
        assertEquals("cut", cut.getAttribute("class"));
        Coordinate[] outline = template.pattern().outline().getExteriorRing().getCoordinates();
        String[] points = cut.getAttribute("points").split(" ");
        assertEquals(outline.length, points.length);
        for (int k = 1; k < points.length; k++) {
            assertEquals(outline[k].x - outline[0].x, coordinate(points[k], 0) - coordinate(points[0], 0), 0.002);
            // SVG counts downwards; a template must not come out mirrored.
            assertEquals(outline[k].y - outline[0].y, coordinate(points[0], 1) - coordinate(points[k], 1), 0.002);
        }
    }

    private static double coordinate(String point, int axis) {
        return Double.parseDouble(point.split(",")[axis]);
    }

    @Test
    void anOverviewIsNoWiderThanAsked() throws Exception {
        Drawing drawing = TemplateDrawing.of(KitSamples.dome("crown").templates().get(0));
        Element root = DocumentBuilderFactory.newInstance().newDocumentBuilder()
                .parse(new ByteArrayInputStream(DrawingSvg.overview(drawing, "small", 100))).getDocumentElement();
        double shown = Double.parseDouble(root.getAttribute("width").replace("mm", ""));
        assertTrue(shown > 99 && shown < 102, "width " + shown);
    }

    @Test
    void sameKitSameBytes() {
        Drawing drawing = TemplateDrawing.of(KitSamples.dome("breast shell").templates().get(0));
        assertArrayEquals(TiledPdf.write(List.of(drawing), List.of("a"), KitSpec.Paper.A4),
                TiledPdf.write(List.of(drawing), List.of("a"), KitSpec.Paper.A4));
    }

    @Test
    void lettersOutsideTheFontDoNotStopThePrint() {
        Drawing drawing = new Drawing(List.of(new Drawing.Stroke(Drawing.Pen.CUT, new double[] {0, 0, 50, 50})),
                List.of(new Drawing.Label(0, 0, 4, "цапля 🪶")));
        assertEquals(1, DrawnPdf.read(TiledPdf.write(List.of(drawing), List.of("鷺"), KitSpec.Paper.LETTER)).size());
    }

    @Test
    void anEndlessTemplateIsRefused() {
        Drawing drawing = new Drawing(List.of(new Drawing.Stroke(Drawing.Pen.CUT, new double[] {0, 0, 9000, 9000})),
                List.of());
        assertThrows(IllegalArgumentException.class,
                () -> TiledPdf.write(List.of(drawing), List.of("a"), KitSpec.Paper.A4));
    }
}
