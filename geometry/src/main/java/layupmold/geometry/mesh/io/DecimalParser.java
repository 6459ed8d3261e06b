package layupmold.geometry.mesh.io;

import java.nio.charset.StandardCharsets;

/**
 * Reads decimal numbers from bytes, correctly rounded.
 *
 * <p>Numbers whose digits fit 53 bits and whose power of ten is at most 22 are exact by one multiplication or division
 * (W. D. Clinger, How to read floating point numbers accurately, PLDI 1990); all others go to
 * {@link Double#parseDouble}.
 */
final class DecimalParser {

    private static final int LONGEST = 512;
    private static final long EXACT = 1L << 53;
    private static final double[] POWERS = {
        1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19,
        1e20, 1e21, 1e22};

    private DecimalParser() {
    }

    /**
     * The number written in {@code text[from..to)}: optional sign, digits with an optional point, optional exponent.
     *
     * @return the nearest double; infinite where it overflows, NaN where the text is not such a number
     */
    static double parse(byte[] text, int from, int to) {
        int i = from;
        boolean negative = false;
        if (i < to && (text[i] == '-' || text[i] == '+')) {
            negative = text[i++] == '-';
        }
        long digits = 0;
        int significant = 0;
        int scale = 0;
        boolean any = false;
        boolean point = false;
        for (; i < to; i++) {
            int c = text[i] - '0';
            if (c >= 0 && c <= 9) {
                any = true;
                if (significant < 18) {
                    digits = 10 * digits + c;
                    significant += digits == 0 ? 0 : 1;
                    scale -= point ? 1 : 0;
                } else {
                    significant++;
                }
            } else if (c == '.' - '0' && !point) {
                point = true;
            } else {
                break;
            }
        }
        if (!any) {
            return Double.NaN;
        }
        if (i < to) {
            int exponent = exponent(text, i, to);
            if (exponent == Integer.MIN_VALUE) {
                return Double.NaN;
            }
            scale += exponent;
        }
        if (significant <= 18 && digits < EXACT && scale >= -22 && scale <= 22) {
            double value = scale < 0 ? digits / POWERS[-scale] : digits * POWERS[scale];
            return negative ? -value : value;
        }
        return to - from > LONGEST ? Double.NaN
                : Double.parseDouble(new String(text, from, to - from, StandardCharsets.ISO_8859_1));
    }

    /** Value of an exponent part, held within ±9999, or {@link Integer#MIN_VALUE} if it is none. */
    private static int exponent(byte[] text, int from, int to) {
        int i = from;
        if (text[i] != 'e' && text[i] != 'E') {
            return Integer.MIN_VALUE;
        }
        i++;
        boolean negative = false;
        if (i < to && (text[i] == '-' || text[i] == '+')) {
            negative = text[i++] == '-';
        }
        if (i == to) {
            return Integer.MIN_VALUE;
        }
        int value = 0;
        for (; i < to; i++) {
            int c = text[i] - '0';
            if (c < 0 || c > 9) {
                return Integer.MIN_VALUE;
            }
            value = Math.min(9999, 10 * value + c);
        }
        return negative ? -value : value;
    }
}
