package layupmold.geometry.render;

import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Path2D;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import org.apache.fontbox.ttf.CmapLookup;
import org.apache.fontbox.ttf.TTFParser;
import org.apache.fontbox.ttf.TrueTypeFont;
import org.apache.pdfbox.io.RandomAccessReadBuffer;

/**
 * Text as outlines from a font that comes with the program (Atkinson Hyperlegible Next, SIL Open Font License), read by
 * Apache FontBox. Needs no fonts and no font library on the machine, and looks the same everywhere.
 */
final class Lettering {

    static final Lettering MEDIUM = read("AtkinsonHyperlegibleNext-Medium.ttf");
    static final Lettering BOLD = read("AtkinsonHyperlegibleNext-Bold.ttf");

    private final TrueTypeFont font;
    private final CmapLookup glyphs;
    private final double unitsPerEm;

    private Lettering(TrueTypeFont font) throws IOException {
        this.font = font;
        this.glyphs = font.getUnicodeCmapLookup();
        this.unitsPerEm = font.getUnitsPerEm();
    }

    private static Lettering read(String resource) {
        try (InputStream in = Lettering.class.getResourceAsStream(resource)) {
            return new Lettering(new TTFParser().parse(new RandomAccessReadBuffer(in)));
        } catch (IOException e) {
            throw new UncheckedIOException("the program's own font " + resource + " cannot be read", e);
        }
    }

    /** Whether the font has a glyph for every character. */
    boolean canWrite(String text) {
        return text.codePoints().allMatch(c -> glyphs.getGlyphId(c) != 0);
    }

    /** Width of a line of text, pixels. */
    double width(String text, double sizePx) {
        return text.codePoints().mapToDouble(this::advance).sum() * sizePx / unitsPerEm;
    }

    /** Outline of a line of text that starts at x with its baseline at y. Characters without a glyph become a box. */
    Shape outline(String text, double sizePx, double x, double y) {
        Path2D line = new Path2D.Double(Path2D.WIND_NON_ZERO);
        double scale = sizePx / unitsPerEm;
        double pen = x;
        for (int c : text.codePoints().toArray()) {
            line.append(glyph(c).createTransformedShape(new AffineTransform(scale, 0, 0, -scale, pen, y)), false);
            pen += advance(c) * scale;
        }
        return line;
    }

    private Path2D glyph(int codePoint) {
        // FontBox reads tables on demand from one stream position.
        synchronized (font) {
            try {
                var data = font.getGlyph().getGlyph(glyphs.getGlyphId(codePoint));
                return data == null ? new Path2D.Double() : data.getPath();
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }

    private double advance(int codePoint) {
        synchronized (font) {
            try {
                return font.getAdvanceWidth(glyphs.getGlyphId(codePoint));
            } catch (IOException e) {
                throw new UncheckedIOException(e);
            }
        }
    }
}
