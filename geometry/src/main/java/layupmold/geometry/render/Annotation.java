package layupmold.geometry.render;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Line2D;
import java.awt.geom.Rectangle2D;
import java.awt.geom.RoundRectangle2D;
import java.awt.image.BufferedImage;

/** Heading, legend and markers on a finished picture. Sizes follow the picture's width, 1600 being the measure. */
final class Annotation {

    private static final Color INK = new Color(0x2B2926);
    private static final Color SOFT_INK = new Color(0x625D56);
    private static final Color PAPER = new Color(0xFBFAF8);
    private static final int TICKS = 6;

    private final Graphics2D g;
    private final double unit;
    private final double width;
    private final double height;

    private Annotation(BufferedImage image) {
        g = image.createGraphics();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
        width = image.getWidth();
        height = image.getHeight();
        unit = width / 1600;
    }

    /** Height that the heading takes from the top, pixels. */
    static double headerPx(Scene scene) {
        double unit = scene.size().widthPx() / 1600.0;
        return scene.title().isEmpty() ? 0 : (scene.subtitle().isEmpty() ? 104 : 146) * unit;
    }

    /** Height that the legend takes from the bottom, pixels. */
    static double footerPx(Scene scene) {
        return scene.legend() instanceof Legend.None ? 0 : 142 * scene.size().widthPx() / 1600.0;
    }

    /** Draws everything that a scene says in words. */
    static void draw(BufferedImage image, Scene scene, Projection projection, VisibilityBuffer buffer, int samples) {
        Annotation annotation = new Annotation(image);
        try {
            annotation.heading(scene.title(), scene.subtitle());
            if (scene.legend() instanceof Legend.Scale bar) {
                annotation.colourBar(bar.scale());
            } else if (scene.legend() instanceof Legend.Key key) {
                annotation.key(key);
            }
            for (Marker marker : scene.markers()) {
                annotation.marker(marker, projection, buffer, samples);
            }
        } finally {
            annotation.g.dispose();
        }
    }

    private void heading(String title, String subtitle) {
        if (!title.isEmpty()) {
            text(Lettering.BOLD, title, 48, 56 * unit, 84 * unit, INK);
            text(Lettering.MEDIUM, subtitle, 31, 56 * unit, 130 * unit, SOFT_INK);
        }
    }

    private void colourBar(ValueScale scale) {
        double left = 56 * unit;
        double top = height - 92 * unit;
        double length = width - 2 * left;
        double thick = 26 * unit;
        text(Lettering.BOLD, scale.title() + ", " + unitName(scale.unit()), 30, left, top - 16 * unit, INK);
        for (int x = 0; x < Math.round(length); x++) {
            g.setColor(new Color(scale.map().at(x / (length - 1))));
            g.fill(new Rectangle2D.Double(left + x, top, 1.5, thick));
        }
        g.setColor(SOFT_INK);
        g.setStroke(new BasicStroke((float) (1.5 * unit)));
        g.draw(new Rectangle2D.Double(left, top, length, thick));
        for (double tick : scale.ticks(TICKS)) {
            double x = left + length * scale.fraction(tick);
            g.draw(new Line2D.Double(x, top + thick, x, top + thick + 8 * unit));
            centred(Lettering.MEDIUM, scale.label(tick, TICKS), 30, x, top + thick + 42 * unit, INK);
        }
        if (!Double.isNaN(scale.limit())) {
            limit(scale, left + length * scale.fraction(scale.limit()), top, thick);
        }
    }

    private void limit(ValueScale scale, double x, double top, double thick) {
        g.setColor(INK);
        g.setStroke(new BasicStroke((float) (4 * unit)));
        g.draw(new Line2D.Double(x, top - 9 * unit, x, top + thick));
        String words = "limit " + scale.label(scale.limit(), 5 * TICKS);
        centred(Lettering.BOLD, words, 30, x, top - 16 * unit, INK);
    }

    private void key(Legend.Key key) {
        double x = 56 * unit;
        double y = height - 70 * unit;
        double side = 30 * unit;
        for (Legend.Swatch swatch : key.swatches()) {
            Shape box = new RoundRectangle2D.Double(x, y, side, side, 8 * unit, 8 * unit);
            g.setColor(new Color(swatch.rgb()));
            g.fill(box);
            g.setColor(SOFT_INK);
            g.setStroke(new BasicStroke((float) (1.5 * unit)));
            g.draw(box);
            x += side + 12 * unit;
            text(Lettering.MEDIUM, swatch.name(), 30, x, y + 25 * unit, INK);
            x += Lettering.MEDIUM.width(swatch.name(), 30 * unit) + 36 * unit;
        }
    }

    private void marker(Marker marker, Projection projection, VisibilityBuffer buffer, int samples) {
        double[] at = new double[3];
        projection.project(marker.place().x, marker.place().y, marker.place().z, at, 0);
        double x = at[0] / samples;
        double y = at[1] / samples;
        double r = 22 * unit;
        float[] dash = isHidden(at, projection, buffer) ? new float[] {(float) (7 * unit), (float) (6 * unit)} : null;
        Ellipse2D ring = new Ellipse2D.Double(x - r, y - r, 2 * r, 2 * r);
        g.setColor(PAPER);
        g.setStroke(new BasicStroke((float) (8 * unit)));
        g.draw(ring);
        g.setColor(INK);
        g.setStroke(new BasicStroke((float) (4 * unit), BasicStroke.CAP_BUTT, BasicStroke.JOIN_ROUND, 1, dash, 0));
        g.draw(ring);
        double tagX = x + r * 1.5;
        double tagY = y - r * 1.9;
        double w = Math.max(34 * unit, Lettering.BOLD.width(marker.label(), 26 * unit) + 20 * unit);
        g.fill(new RoundRectangle2D.Double(tagX - w / 2, tagY - 18 * unit, w, 36 * unit, 14 * unit, 14 * unit));
        centred(Lettering.BOLD, marker.label(), 26, tagX, tagY + 9 * unit, PAPER);
    }

    private static boolean isHidden(double[] at, Projection projection, VisibilityBuffer buffer) {
        int x = (int) Math.floor(at[0]);
        int y = (int) Math.floor(at[1]);
        if (x < 0 || y < 0 || x >= buffer.width || y >= buffer.height) {
            return false;
        }
        int sample = y * buffer.width + x;
        return buffer.triangle[sample] != VisibilityBuffer.NOTHING
                && projection.depth(at[2]) - projection.depth(buffer.nearness[sample]) > 0.01 * projection.radius;
    }

    private void text(Lettering face, String words, double size, double x, double baseline, Color colour) {
        g.setColor(colour);
        g.fill(face.outline(words, size * unit, x, baseline));
    }

    private void centred(Lettering face, String words, double size, double x, double baseline, Color colour) {
        double half = face.width(words, size * unit) / 2;
        double left = Math.max(8 * unit, Math.min(width - 8 * unit - 2 * half, x - half));
        text(face, words, size, left, baseline, colour);
    }

    private static String unitName(String unit) {
        return unit.equals("deg") ? "degrees" : unit;
    }
}
