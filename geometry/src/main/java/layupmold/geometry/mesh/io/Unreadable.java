package layupmold.geometry.mesh.io;

import java.nio.charset.StandardCharsets;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;

/** The refusals that all readers share, with their codes in one place. */
final class Unreadable {

    /** Beyond this a coordinate is a mistake, and squares and cubes of it cost digits: file units. */
    static final double MAX_COORDINATE = 1e9;

    private Unreadable() {
    }

    static Rejection because(String code, String message, String advice) {
        return new Rejection(Finding.error("read", code, message).advising(advice));
    }

    static Rejection truncated(String message) {
        return because("truncated", message, "The file was cut short: export or upload it again.");
    }

    static Rejection syntax(String message) {
        return because("bad-syntax", message, "The file is damaged or not what it says it is: export it again.");
    }

    static Rejection empty(String message) {
        return because("empty", message, "Export the surface as triangles or polygons.");
    }

    static Rejection tooManyTriangles(long count, MeshLimits limits) {
        return because("too-many-triangles",
                "the mesh has " + count + " triangles or more; the limit is " + limits.maxTriangles(),
                "Reduce the mesh: a mold gains nothing from triangles smaller than the print's layers.");
    }

    static Rejection tooManyVertices(long count, MeshLimits limits) {
        return because("too-many-vertices",
                "the mesh has " + count + " vertices or more; the limit is " + limits.maxVertices(),
                "Reduce the mesh: a mold gains nothing from triangles smaller than the print's layers.");
    }

    static Rejection index(String message) {
        return because("index-out-of-range", message, "The file is damaged: export it again.");
    }

    /** Why {@code value}, read at {@code where}, is no coordinate. {@code token} is its text, or null. */
    static Rejection coordinate(String where, double value, String token) {
        String shown = token == null ? Double.toString(value) : '"' + printable(token) + '"';
        if (token != null && Double.isNaN(value) && !looksNotFinite(token)) {
            return because("bad-number", where + ": " + shown + " is not a number",
                    token.indexOf(',') >= 0 ? "Export with a decimal point, not a comma."
                            : "The file is damaged: export it again.");
        }
        if (Double.isNaN(value) || Double.isInfinite(value) && (token == null || looksNotFinite(token))) {
            return because("coordinate-not-finite", where + ": coordinate " + shown + " is not finite",
                    "Repair the mesh where it was made: a vertex lost its position.");
        }
        return because("coordinate-out-of-range",
                where + ": coordinate " + shown + " is beyond " + MAX_COORDINATE + " units",
                "Move the part near the origin and check the unit.");
    }

    private static boolean looksNotFinite(String token) {
        String lower = token.toLowerCase(java.util.Locale.ROOT);
        return lower.contains("nan") || lower.contains("inf") || lower.contains("ind");
    }

    /** {@code text} made safe to show: at most 40 printable ASCII characters. */
    static String printable(String text) {
        StringBuilder safe = new StringBuilder();
        for (int i = 0; i < Math.min(text.length(), 40); i++) {
            char c = text.charAt(i);
            safe.append(c >= ' ' && c < 127 ? c : '?');
        }
        return text.length() > 40 ? safe + "..." : safe.toString();
    }

    static String printable(byte[] bytes, int from, int to) {
        return printable(new String(bytes, from, Math.min(to - from, 41), StandardCharsets.ISO_8859_1));
    }
}
