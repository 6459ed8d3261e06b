package layupmold.service.kit;

import java.awt.Color;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Locale;
import layupmold.geometry.kit.KitSpec;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDPageContentStream;
import org.apache.pdfbox.pdmodel.common.PDRectangle;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType1Font;
import org.apache.pdfbox.pdmodel.font.Standard14Fonts;
import org.locationtech.jts.geom.Envelope;

/**
 * Drawings at full size over as many pages as they need, upright or across, whichever takes fewer.
 *
 * <p>Neighbouring pages overlap; crosses in the overlap's middle fall on each other when the pages are taped together.
 * Every page has a scale of 100 mm to check that nothing was scaled in printing. Pages without a line are left out.
 */
final class TiledPdf {

    private static final double POINTS_PER_MM = 72 / 25.4;
    /** What common printers leave white, and room for the scale. */
    private static final double BORDER_MM = 12;
    private static final double OVERLAP_MM = 10;
    static final int MOST_PAGES = 600;
    private static final double CROSS_MM = 4;

    private final PDFont font = new PDType1Font(Standard14Fonts.FontName.HELVETICA);

    private TiledPdf() {
    }

    /** How one drawing is cut into pages. */
    private record Grid(Envelope box, double pageWidth, double pageHeight) {

        double tileWidth() {
            return pageWidth - 2 * BORDER_MM;
        }

        double tileHeight() {
            return pageHeight - 2 * BORDER_MM;
        }

        int columns() {
            return count(box.getWidth(), tileWidth());
        }

        int rows() {
            return count(box.getHeight(), tileHeight());
        }

        private static int count(double extent, double tile) {
            return Math.max(1, (int) Math.ceil((extent - OVERLAP_MM) / (tile - OVERLAP_MM)));
        }

        double left(int column) {
            return box.getMinX() + column * (tileWidth() - OVERLAP_MM);
        }

        double bottom(int row) {
            return box.getMinY() + row * (tileHeight() - OVERLAP_MM);
        }

        Envelope tile(int column, int row) {
            return new Envelope(left(column), left(column) + tileWidth(), bottom(row), bottom(row) + tileHeight());
        }
    }

    /** Most pages that the drawings may take, empty ones included. */
    static int pages(List<Drawing> drawings, KitSpec.Paper paper) {
        long pages = 0;
        for (Drawing drawing : drawings) {
            Grid grid = grid(drawing, paper);
            pages += (long) grid.columns() * grid.rows();
        }
        return (int) Math.min(Integer.MAX_VALUE, pages);
    }

    private static Grid grid(Drawing drawing, KitSpec.Paper paper) {
        Envelope box = drawing.box();
        box.expandBy(2);
        Grid upright = new Grid(box, paper.widthMm(), paper.heightMm());
        Grid across = new Grid(box, paper.heightMm(), paper.widthMm());
        return across.columns() * across.rows() < upright.columns() * upright.rows() ? across : upright;
    }

    /**
     * @param titles one a drawing, printed on each of its pages
     * @throws IllegalArgumentException if the pages would be more than {@value #MOST_PAGES}
     */
    static byte[] write(List<Drawing> drawings, List<String> titles, KitSpec.Paper paper) {
        if (pages(drawings, paper) > MOST_PAGES) {
            throw new IllegalArgumentException("the templates would take more than " + MOST_PAGES + " pages");
        }
        TiledPdf pdf = new TiledPdf();
        try (PDDocument document = new PDDocument(); ByteArrayOutputStream out = new ByteArrayOutputStream()) {
            document.setDocumentId(0L);
            for (int k = 0; k < drawings.size(); k++) {
                pdf.add(document, drawings.get(k), titles.get(k), paper);
            }
            document.save(out);
            return out.toByteArray();
        } catch (IOException e) {
            throw new UncheckedIOException("cannot write to memory", e);
        }
    }

    private void add(PDDocument document, Drawing drawing, String title, KitSpec.Paper paper) throws IOException {
        Grid grid = grid(drawing, paper);
        for (int row = grid.rows() - 1; row >= 0; row--) {
            for (int column = 0; column < grid.columns(); column++) {
                if (isUsed(drawing, grid.tile(column, row))) {
                    addPage(document, drawing, title, grid, column, row);
                }
            }
        }
    }

    private static boolean isUsed(Drawing drawing, Envelope tile) {
        for (Drawing.Stroke stroke : drawing.strokes()) {
            double[] xy = stroke.xy();
            for (int k = 0; k + 3 < xy.length; k += 2) {
                if (tile.intersects(new Envelope(xy[k], xy[k + 2], xy[k + 1], xy[k + 3]))) {
                    return true;
                }
            }
        }
        return false;
    }

    private void addPage(PDDocument document, Drawing drawing, String title, Grid grid, int column, int row)
            throws IOException {
        PDPage page = new PDPage(new PDRectangle(points(grid.pageWidth()), points(grid.pageHeight())));
        document.addPage(page);
        Envelope tile = grid.tile(column, row);
        try (PDPageContentStream content = new PDPageContentStream(document, page)) {
            content.saveGraphicsState();
            content.addRect(points(BORDER_MM), points(BORDER_MM), points(grid.tileWidth()), points(grid.tileHeight()));
            content.clip();
            double dx = BORDER_MM - tile.getMinX();
            double dy = BORDER_MM - tile.getMinY();
            for (Drawing.Stroke stroke : drawing.strokes()) {
                if (stroke.box().intersects(tile)) {
                    draw(content, stroke, dx, dy);
                }
            }
            for (Drawing.Label label : drawing.labels()) {
                text(content, label.x() + dx, label.y() + dy, label.heightMm(), label.text());
            }
            content.restoreGraphicsState();
            registerMarks(content, grid, column, row);
            scale(content);
            text(content, BORDER_MM + 110, 3, 2.6, String.format(Locale.ROOT, "page %s%d of %s%d",
                    letter(column), row + 1, letter(grid.columns() - 1), grid.rows()));
            text(content, BORDER_MM, grid.pageHeight() - 6, 2.6, title
                    + ": print at 100 %, tape with the crosses on each other");
        }
    }

    private void draw(PDPageContentStream content, Drawing.Stroke stroke, double dx, double dy) throws IOException {
        Drawing.Pen pen = stroke.pen();
        content.setStrokingColor(new Color(pen.rgb));
        content.setLineWidth(points(pen.widthMm));
        float[] dash = pen.dashMm();
        for (int k = 0; k < dash.length; k++) {
            dash[k] = points(dash[k]);
        }
        content.setLineDashPattern(dash, 0);
        double[] xy = stroke.xy();
        content.moveTo(points(xy[0] + dx), points(xy[1] + dy));
        for (int k = 2; k < xy.length; k += 2) {
            content.lineTo(points(xy[k] + dx), points(xy[k + 1] + dy));
        }
        content.stroke();
    }

    /** Crosses where the middles of the overlaps meet, the outer edges of the grid included. */
    private static void registerMarks(PDPageContentStream content, Grid grid, int column, int row)
            throws IOException {
        content.setStrokingColor(Color.BLACK);
        content.setLineWidth(points(0.15));
        content.setLineDashPattern(new float[0], 0);
        double near = BORDER_MM + OVERLAP_MM / 2;
        for (double x : new double[] {near, grid.pageWidth() - near}) {
            for (double y : new double[] {near, grid.pageHeight() - near}) {
                line(content, x - CROSS_MM, y, x + CROSS_MM, y);
                line(content, x, y - CROSS_MM, x, y + CROSS_MM);
            }
        }
    }

    private void scale(PDPageContentStream content) throws IOException {
        content.setLineWidth(points(0.25));
        double y = 7;
        line(content, BORDER_MM, y, BORDER_MM + 100, y);
        for (int k = 0; k <= 10; k++) {
            line(content, BORDER_MM + 10 * k, y, BORDER_MM + 10 * k, y + (k % 5 == 0 ? 3 : 1.5));
        }
        text(content, BORDER_MM, 3, 2.6, "this scale must measure 100 mm");
    }

    private static void line(PDPageContentStream content, double x0, double y0, double x1, double y1)
            throws IOException {
        content.moveTo(points(x0), points(y0));
        content.lineTo(points(x1), points(y1));
        content.stroke();
    }

    private void text(PDPageContentStream content, double x, double y, double heightMm, String text)
            throws IOException {
        content.beginText();
        content.setFont(font, points(heightMm));
        content.newLineAtOffset(points(x), points(y));
        content.showText(printable(text));
        content.endText();
    }

    /** The standard fonts know Latin letters only; others become question marks. */
    private String printable(String text) {
        StringBuilder known = new StringBuilder();
        text.codePoints().forEach(c -> {
            String s = new String(Character.toChars(c));
            try {
                font.encode(s);
                known.append(s);
            } catch (IllegalArgumentException | IOException e) {
                known.append('?');
            }
        });
        return known.toString();
    }

    private static String letter(int column) {
        return column < 26 ? String.valueOf((char) ('A' + column)) : letter(column / 26 - 1) + letter(column % 26);
    }

    private static float points(double mm) {
        return (float) (mm * POINTS_PER_MM);
    }
}
