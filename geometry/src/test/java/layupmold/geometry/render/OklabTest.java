package layupmold.geometry.render;

import static org.junit.jupiter.api.Assertions.assertEquals;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.junit.jupiter.api.Test;

class OklabTest {

    /** W3C CSS Color Module Level 4, sample values of sRGB red and lime in oklab() (from memory). */
    @Test
    void primariesMatchThePublishedValues() {
        assertClose(new Oklab(0.62796, 0.22486, 0.12585), Oklab.ofRgb(0xFF0000));
        assertClose(new Oklab(0.86644, -0.23389, 0.17950), Oklab.ofRgb(0x00FF00));
        assertClose(new Oklab(1, 0, 0), Oklab.ofRgb(0xFFFFFF));
        assertClose(new Oklab(0, 0, 0), Oklab.ofRgb(0x000000));
    }

    @Property
    void everyScreenColourComesBack(@ForAll @IntRange(max = 0xFFFFFF) int rgb) {
        assertEquals(rgb, Oklab.ofRgb(rgb).toRgb());
    }

    private static void assertClose(Oklab expected, Oklab actual) {
        assertEquals(0, expected.distance(actual), 2e-4, expected + " against " + actual);
    }
}
