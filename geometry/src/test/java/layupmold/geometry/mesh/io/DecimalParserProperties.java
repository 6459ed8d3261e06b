package layupmold.geometry.mesh.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.math.BigDecimal;
import java.nio.charset.StandardCharsets;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

/** Held against {@link Double#parseDouble}, which is correctly rounded. */
class DecimalParserProperties {

    private static double parse(String text) {
        byte[] padded = ("7" + text + "7").getBytes(StandardCharsets.ISO_8859_1);
        return DecimalParser.parse(padded, 1, padded.length - 1);
    }

    private static void assertSame(String text) {
        assertEquals(Double.doubleToLongBits(Double.parseDouble(text)), Double.doubleToLongBits(parse(text)), text);
    }

    @Property(tries = 5000, seed = "11")
    void everyDoubleComesBack(@ForAll long bits) {
        double value = Double.longBitsToDouble(bits);
        if (Double.isFinite(value)) {
            assertSame(Double.toString(value));
            assertSame(new BigDecimal(value).round(new java.math.MathContext(17)).toString());
        }
    }

    @Property(tries = 5000, seed = "12")
    void anyDigitsAnyPointAnyExponent(@ForAll long digits, @ForAll @IntRange(max = 25) int point,
            @ForAll @IntRange(min = -330, max = 330) int exponent) {
        String text = Long.toString(Math.abs(digits >>> 1));
        String padded = "0".repeat(Math.max(0, point - text.length())) + text;
        String withPoint = padded.substring(0, padded.length() - point) + "."
                + padded.substring(padded.length() - point);
        assertSame(withPoint);
        assertSame("-" + withPoint + "e" + exponent);
        assertSame("+" + text + "E+" + Math.abs(exponent));
    }

    @Example
    void edges() {
        for (String text : new String[] {"0", "-0", "1.", ".5", "1e22", "1e23", "9007199254740993", "1e400", "-1e400",
            "1e-400", "0e99999999999", "123456789012345678901234567890", "0.000000000000000000000000000001",
            "1e00000000000000000000000000005", "2.2250738585072011e-308", "1" + "0".repeat(300)}) {
            assertSame(text);
        }
        for (String text : new String[] {"", "-", ".", "e5", "1e", "1e+", "1,5", "0x10", "1.2.3", "nan", "1f", "1 ",
            "--1", "1e5.5", "9".repeat(600)}) {
            assertTrue(Double.isNaN(parse(text)), text);
        }
    }
}
