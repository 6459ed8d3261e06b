package layupmold.geometry.mesh.io;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;

/** Buffers text and numbers on their way to a stream, without an object a number. */
final class AsciiSink {

    private static final double[] POWERS = new double[23];
    private static final int ROOM = 64;
    private static final float STEPS = 1 << 14;
    /** 2⁻¹⁴ is this many units of its last decimal. */
    private static final long STEP_DIGITS = 6_103_515_625L;
    private static final int STEP_DECIMALS = 14;
    /** Beyond this the digits would not fit a long. */
    private static final float MOST_EXACT = 90_000;

    static {
        for (int i = 0; i < POWERS.length; i++) {
            POWERS[i] = Double.parseDouble("1e" + i);
        }
    }

    private final OutputStream out;
    private final byte[] buffer = new byte[1 << 16];
    private final byte[] reversed = new byte[24];
    private int size;

    AsciiSink(OutputStream out) {
        this.out = out;
    }

    /** Appends text, as UTF-8. */
    AsciiSink text(String text) throws IOException {
        byte[] bytes = text.getBytes(StandardCharsets.UTF_8);
        return raw(bytes);
    }

    AsciiSink raw(byte[] bytes) throws IOException {
        if (bytes.length > buffer.length - size) {
            flush();
        }
        if (bytes.length > buffer.length) {
            out.write(bytes);
        } else {
            System.arraycopy(bytes, 0, buffer, size, bytes.length);
            size += bytes.length;
        }
        return this;
    }

    /** Appends a number that is not negative. */
    AsciiSink number(int value) throws IOException {
        room();
        digits(value, 0);
        return this;
    }

    /**
     * Appends {@code value} exactly if it is a multiple of 2⁻¹⁴, as a mold's coordinates are: in doubles too its surface
     * then crosses itself nowhere. Else appends the shortest decimal, of at most nine digits, that a float32 parser turns
     * back into it; also one that reads a double first and rounds it.
     */
    AsciiSink decimal(float value) throws IOException {
        room();
        float magnitude = Math.abs(value);
        if (magnitude == 0) {
            buffer[size++] = '0';
            return this;
        }
        if (!(magnitude >= 1e-6f && magnitude < 1e9f)) {
            return text(Float.toString(value));
        }
        if (value < 0) {
            buffer[size++] = '-';
        }
        long steps = (long) (magnitude * STEPS);
        if (magnitude < MOST_EXACT && steps / STEPS == magnitude) {
            trimmed(steps * STEP_DIGITS, STEP_DECIMALS);
        } else {
            shortest(magnitude);
        }
        return this;
    }

    private void shortest(float magnitude) {
        int whole = 1;
        while (whole < 10 && magnitude >= POWERS[whole]) {
            whole++;
        }
        // Within this of the value, no rounding on the reader's side, twice even, can reach another float.
        double safe = 0.4999999 * (magnitude - (double) Math.nextDown(magnitude));
        int decimals = Math.max(0, 5 - whole);
        long scaled = Math.round(magnitude * POWERS[decimals]);
        while (decimals < 16 && !(Math.abs(scaled / POWERS[decimals] - magnitude) < safe)) {
            decimals++;
            scaled = Math.round(magnitude * POWERS[decimals]);
        }
        trimmed(scaled, decimals);
    }

    /** Appends {@code value / 10^decimals} without zeros at its end. */
    private void trimmed(long value, int decimals) {
        long shorter = value;
        int left = decimals;
        while (left > 0 && shorter % 10 == 0) {
            shorter /= 10;
            left--;
        }
        digits(shorter, left);
    }

    /** Appends {@code value / 10^decimals} with exactly that many decimals. */
    private void digits(long value, int decimals) {
        int n = 0;
        long left = value;
        do {
            if (n == decimals && n > 0) {
                reversed[n++] = '.';
            }
            reversed[n++] = (byte) ('0' + left % 10);
            left /= 10;
        } while (left > 0 || decimals > 0 && n <= decimals + 1);
        while (n > 0) {
            buffer[size++] = reversed[--n];
        }
    }

    private void room() throws IOException {
        if (buffer.length - size < ROOM) {
            flush();
        }
    }

    void flush() throws IOException {
        out.write(buffer, 0, size);
        size = 0;
    }
}
