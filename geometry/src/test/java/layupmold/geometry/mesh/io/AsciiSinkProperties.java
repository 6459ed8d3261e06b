package layupmold.geometry.mesh.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.nio.charset.StandardCharsets;
import java.util.Locale;
import net.jqwik.api.Assume;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;

class AsciiSinkProperties {

    private static String decimal(float value) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        AsciiSink sink = new AsciiSink(out);
        sink.decimal(value).flush();
        return out.toString(StandardCharsets.US_ASCII);
    }

    @Property(tries = 20_000, seed = "21")
    void everyFloatComesBackByEitherWayOfReading(@ForAll int bits) throws IOException {
        float value = Float.intBitsToFloat(bits);
        if (Float.isFinite(value)) {
            float same = value + 0f;
            assertEquals(same, Float.parseFloat(decimal(value)));
            assertEquals(same, (float) Double.parseDouble(decimal(value)));
        }
    }

    /** Floats lie half as dense above a power of two as below it. */
    @Example
    void powersOfTwoComeBack() throws IOException {
        for (int exponent = -149; exponent < 128; exponent++) {
            float value = Math.scalb(1f, exponent);
            assertEquals(value, Float.parseFloat(decimal(value)));
            assertEquals(Math.nextDown(value), Float.parseFloat(decimal(Math.nextDown(value))));
        }
    }

    /** Coordinates of molds keep their value whatever reads them. */
    @Property(tries = 5000, seed = "23")
    void multiplesOfTheLatticesStepAreExact(@ForAll int steps) throws IOException {
        float value = Math.scalb((float) steps, -14);
        Assume.that(Math.abs(value) < 90_000);
        assertEquals(0, new BigDecimal(value).compareTo(new BigDecimal(decimal(value))), decimal(value));
    }

    /** Shortest: no decimal with one digit less reads back as the same float. */
    @Property(tries = 5000, seed = "22")
    void noShorterDecimalWouldDo(@ForAll @IntRange(min = -900_000_000, max = 900_000_000) int micro)
            throws IOException {
        float value = micro / 1e6f;
        Assume.that(Math.scalb(value, 14) % 1 != 0);
        String text = decimal(value);
        BigDecimal written = new BigDecimal(text);
        int digits = written.stripTrailingZeros().precision();
        if (digits > 6) {
            MathContext shorter = new MathContext(digits - 1, RoundingMode.HALF_EVEN);
            assertTrue(new BigDecimal(value).round(shorter).floatValue() != value, text);
        }
        assertTrue(digits <= 9, text);
    }

    @Example
    void looks() throws IOException {
        assertEquals("0", decimal(-0f));
        assertEquals("0.1", decimal(0.1f));
        assertEquals("-123.456", decimal(-123.456f));
        assertEquals("100000", decimal(100_000f));
        assertEquals("0.00001", decimal(1e-5f));
        assertEquals("16777216", decimal(16_777_216f));
        Locale before = Locale.getDefault();
        try {
            Locale.setDefault(Locale.GERMANY);
            assertEquals("0.5", decimal(0.5f));
        } finally {
            Locale.setDefault(before);
        }
    }
}
