package layupmold.geometry.mesh.io;

import java.nio.charset.StandardCharsets;
import layupmold.geometry.finding.Rejection;

/** Walks over the tokens of a text file held as bytes. Line numbers are counted only when an error asks for one. */
final class TextCursor {

    final byte[] bytes;
    final int end;
    int at;

    /** The token found by {@link #next} or {@link #nextOnLine}: {@code bytes[from..to)}. */
    int from;
    int to;

    TextCursor(byte[] bytes, int at) {
        this.bytes = bytes;
        this.end = bytes.length;
        this.at = at;
    }

    /** Start of the text after a UTF-8 byte order mark, if there is one. */
    static int afterMark(byte[] bytes) {
        boolean mark = bytes.length >= 3 && bytes[0] == (byte) 0xEF && bytes[1] == (byte) 0xBB
                && bytes[2] == (byte) 0xBF;
        return mark ? 3 : 0;
    }

    /** Moves to the next token on any line; false at the end of the file. */
    boolean next() {
        while (at < end && isSpace(bytes[at])) {
            at++;
        }
        return take();
    }

    /** Moves to the next token on this line; false at its end. */
    boolean nextOnLine() {
        while (at < end && isSpace(bytes[at]) && !isBreak(bytes[at])) {
            at++;
        }
        return take();
    }

    private boolean take() {
        from = at;
        while (at < end && !isSpace(bytes[at])) {
            at++;
        }
        to = at;
        return to > from;
    }

    /** Moves to the first byte after this line. */
    void skipLine() {
        while (at < end && !isBreak(bytes[at])) {
            at++;
        }
        if (at + 1 < end && bytes[at] == '\r' && bytes[at + 1] == '\n') {
            at++;
        }
        at = Math.min(end, at + 1);
    }

    /** True if the current token is {@code lower}, in either case. */
    boolean is(String lower) {
        if (to - from != lower.length()) {
            return false;
        }
        for (int i = 0; i < lower.length(); i++) {
            int c = bytes[from + i];
            if ((c >= 'A' && c <= 'Z' ? c + 32 : c) != lower.charAt(i)) {
                return false;
            }
        }
        return true;
    }

    /** The current token as a coordinate. */
    double coordinate() {
        double value = DecimalParser.parse(bytes, from, to);
        if (!(Math.abs(value) <= Unreadable.MAX_COORDINATE)) {
            throw Unreadable.coordinate(where(), value, token());
        }
        return value;
    }

    /** The current token's first characters. */
    String token() {
        return new String(bytes, from, Math.min(to - from, 64), StandardCharsets.ISO_8859_1);
    }

    String shown() {
        return to > from ? '"' + Unreadable.printable(bytes, from, to) + '"' : "the end of the file";
    }

    /** "line 12" for the current token. */
    String where() {
        return "line " + line(from);
    }

    /** Line of a byte, counted from 1. */
    int line(int position) {
        int line = 1;
        for (int i = 0; i < Math.min(position, end); i++) {
            if (bytes[i] == '\n' || bytes[i] == '\r' && (i + 1 == end || bytes[i + 1] != '\n')) {
                line++;
            }
        }
        return line;
    }

    Rejection unexpected(String wanted) {
        String message = where() + ": expected " + wanted + ", found " + shown();
        return to > from ? Unreadable.syntax(message) : Unreadable.truncated(message);
    }

    static boolean isSpace(byte b) {
        return b == ' ' || b >= '\t' && b <= '\r';
    }

    static boolean isBreak(byte b) {
        return b == '\n' || b == '\r';
    }
}
