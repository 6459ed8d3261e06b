package layupmold.service.kit;

import java.awt.geom.Point2D;
import java.io.IOException;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.contentstream.PDFGraphicsStreamEngine;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.graphics.image.PDImage;

/** Reads the lines of a PDF back: what a printer would draw, in mm on the page. */
final class DrawnPdf extends PDFGraphicsStreamEngine {

    /** @param xy corners in mm; @param widthMm pen */
    record Line(double[] xy, double widthMm, boolean dashed) {
        double length() {
            double sum = 0;
            for (int k = 2; k < xy.length; k += 2) {
                sum += Math.hypot(xy[k] - xy[k - 2], xy[k + 1] - xy[k - 1]);
            }
            return sum;
        }
    }

    private static final double MM = 25.4 / 72;

    private final List<Line> lines = new ArrayList<>();
    private final List<Double> path = new ArrayList<>();

    private DrawnPdf(PDPage page) {
        super(page);
    }

    /** The lines of every page. */
    static List<List<Line>> read(byte[] pdf) {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            List<List<Line>> pages = new ArrayList<>();
            for (PDPage page : document.getPages()) {
                DrawnPdf reader = new DrawnPdf(page);
                reader.processPage(page);
                pages.add(reader.lines);
            }
            return pages;
        } catch (IOException e) {
            throw new IllegalStateException(e);
        }
    }

    @Override
    public void moveTo(float x, float y) {
        path.clear();
        lineTo(x, y);
    }

    @Override
    public void lineTo(float x, float y) {
        path.add(x * MM);
        path.add(y * MM);
    }

    @Override
    public void strokePath() {
        lines.add(new Line(path.stream().mapToDouble(d -> d).toArray(),
                getGraphicsState().getLineWidth() * MM, getGraphicsState().getLineDashPattern().getDashArray().length > 0));
        path.clear();
    }

    @Override
    public Point2D getCurrentPoint() {
        int n = path.size();
        return new Point2D.Double(path.get(n - 2) / MM, path.get(n - 1) / MM);
    }

    @Override
    public void appendRectangle(Point2D a, Point2D b, Point2D c, Point2D d) {
        path.clear();
    }

    @Override
    public void clip(int windingRule) {
        path.clear();
    }

    @Override
    public void endPath() {
        path.clear();
    }

    @Override
    public void closePath() {
        throw new UnsupportedOperationException("not drawn by us");
    }

    @Override
    public void curveTo(float x1, float y1, float x2, float y2, float x3, float y3) {
        throw new UnsupportedOperationException("not drawn by us");
    }

    @Override
    public void fillPath(int windingRule) {
        throw new UnsupportedOperationException("not drawn by us");
    }

    @Override
    public void fillAndStrokePath(int windingRule) {
        throw new UnsupportedOperationException("not drawn by us");
    }

    @Override
    public void shadingFill(COSName shadingName) {
        throw new UnsupportedOperationException("not drawn by us");
    }

    @Override
    public void drawImage(PDImage image) {
        throw new UnsupportedOperationException("not drawn by us");
    }
}
