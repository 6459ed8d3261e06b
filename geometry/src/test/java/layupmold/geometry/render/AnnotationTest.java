package layupmold.geometry.render;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.geom.Rectangle2D;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.nio.ByteBuffer;
import java.util.List;
import javax.imageio.ImageIO;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

class AnnotationTest {

    private static final Camera DOWN = new Camera(new Vector3d(0, 0, -1), new Vector3d(0, 1, 0), 0);
    private static final Item PLATE = new Item(Shapes.plate(1, -40, -30, 40, 30, 0), new Paint.Plain(0xB0A090));

    @Test
    void theFontHasTheSignsOfTheTrade() {
        assertTrue(Lettering.MEDIUM.canWrite("0123456789.,−+±×·°²³≤≥ mm degrees Ø"));
        assertTrue(Lettering.BOLD.canWrite("0123456789.,−+±×·°²³≤≥ mm degrees Ø"));
        assertFalse(Lettering.MEDIUM.canWrite("\u4e2d"), "a missing glyph is told");
    }

    @Test
    void textIsAsWideAsSaidAndScalesWithItsSize() {
        Rectangle2D small = Lettering.MEDIUM.outline("HHHH", 20, 100, 50).getBounds2D();
        Rectangle2D large = Lettering.MEDIUM.outline("HHHH", 40, 100, 50).getBounds2D();
        assertEquals(2 * small.getWidth(), large.getWidth(), 1e-6);
        assertEquals(50, small.getMaxY(), 0.1);
        assertTrue(small.getHeight() > 12 && small.getHeight() < 16, "capitals are about 0.7 em high");
        double advance = Lettering.MEDIUM.width("HHHH", 20);
        assertTrue(small.getWidth() < advance && small.getWidth() > 0.85 * advance);
    }

    @Test
    void theColourBarShowsTheScaleFromEndToEnd() {
        ValueScale scale = ValueScale.about(3, "Draft", "deg", -5, 60);
        BufferedImage image = Renderer.render(Scene.of("", "", DOWN, PLATE).asMap(new Legend.Scale(scale)));
        int y = 1200 - 92 + 13;
        for (double value : new double[] {-4.9, -2, 1, 20, 40, 59.5}) {
            int x = (int) Math.round(56 + (1600 - 112) * scale.fraction(value));
            assertEquals(0, Oklab.ofRgb(scale.colour(value)).distance(Oklab.ofRgb(image.getRGB(x, y))), 0.02,
                    "at " + value);
        }
    }

    @Test
    void everyTickHasAMarkBelowTheBar() {
        ValueScale scale = ValueScale.sequential("Wall thickness", "mm", 0, 12);
        BufferedImage image = Renderer.render(Scene.of("", "", DOWN, PLATE).asMap(new Legend.Scale(scale)));
        assertEquals(List.of(0.0, 2.0, 4.0, 6.0, 8.0, 10.0, 12.0), scale.ticks(6));
        int y = 1200 - 92 + 26 + 5;
        for (double tick : scale.ticks(6)) {
            int x = (int) Math.round(56 + (1600 - 112) * scale.fraction(tick));
            assertTrue(darkest(image, x - 2, x + 2, y) < 0xA0, "no mark at " + tick);
            assertTrue(darkest(image, x + 8, x + 12, y) > 0xC0, "a mark beside " + tick);
        }
    }

    @Test
    void theKeyShowsItsColours() {
        Legend key = new Legend.Key(List.of(new Legend.Swatch("kept face", 0x2F7F86), new Legend.Swatch("removed", 0xD9A25F)));
        BufferedImage image = Renderer.render(Scene.of("", "", DOWN, PLATE).explainedBy(key));
        assertEquals(0x2F7F86, image.getRGB(56 + 15, 1200 - 70 + 15) & 0xFFFFFF);
        boolean second = false;
        for (int x = 100; x < 600; x++) {
            second |= (image.getRGB(x, 1200 - 70 + 15) & 0xFFFFFF) == 0xD9A25F;
        }
        assertTrue(second);
    }

    @Test
    void aMarkerRingsItsPlace() {
        Scene scene = Scene.of("", "", DOWN, PLATE).marking(List.of(new Marker(new Vector3d(10, 5, 0), "1")));
        double[] at = Renderer.pixelOf(scene, new Vector3d(10, 5, 0));
        BufferedImage with = Renderer.render(scene);
        BufferedImage without = Renderer.render(scene.marking(List.of()));
        int x = (int) at[0];
        int y = (int) at[1];
        assertTrue((with.getRGB(x - 22, y) & 255) < 0x50, "the ring is dark");
        assertEquals(without.getRGB(x, y), with.getRGB(x, y), "the place itself stays visible");
    }

    /** Signature and IHDR as ISO/IEC 15948 sections 5.2 and 11.2.2 have them. */
    @Test
    void aPngHasTheSizeAskedForAndReadsBackUnchanged() throws Exception {
        BufferedImage image = Renderer.render(Scene.of("Heron", "", DOWN, PLATE));
        byte[] png = PngWriter.toBytes(image);
        ByteBuffer bytes = ByteBuffer.wrap(png);
        assertEquals(0x89504E470D0A1A0AL, bytes.getLong(0));
        assertEquals(1600, bytes.getInt(16));
        assertEquals(1200, bytes.getInt(20));
        BufferedImage back = ImageIO.read(new ByteArrayInputStream(png));
        for (int y = 0; y < 1200; y += 7) {
            for (int x = 0; x < 1600; x += 5) {
                assertEquals(image.getRGB(x, y), back.getRGB(x, y));
            }
        }
    }

    private static int darkest(BufferedImage image, int fromX, int toX, int y) {
        int least = 255;
        for (int x = Math.max(0, fromX); x <= Math.min(image.getWidth() - 1, toX); x++) {
            least = Math.min(least, image.getRGB(x, y) & 255);
        }
        return least;
    }
}
