package layupmold.geometry.mesh.io;

import java.nio.charset.StandardCharsets;
import java.util.LinkedHashMap;
import java.util.Locale;
import java.util.Map;
import layupmold.geometry.finding.Rejection;

/**
 * Finds a mesh file's format from its content. The name is used only to word a refusal.
 *
 * <p>Binary STL has no magic number and may even start with "solid"; it is known by a length that fits its triangle
 * count.
 */
final class FormatDetector {

    /** How many bytes after the last triangle are forgiven. */
    private static final int FORGIVEN = 4096;

    /** First bytes (ISO 8859-1) of files that people post by mistake. */
    private static final Map<String, String> FOREIGN = foreign();

    private FormatDetector() {
    }

    private static Map<String, String> foreign() {
        Map<String, String> names = new LinkedHashMap<>();
        names.put("\u0089PNG", "a PNG picture");
        names.put("\u00FF\u00D8\u00FF", "a JPEG picture");
        names.put("GIF8", "a GIF picture");
        names.put("%PDF", "a PDF document");
        names.put("\u001F\u008B", "a gzip archive");
        names.put("Rar!", "a RAR archive");
        names.put("7z\u00BC\u00AF", "a 7z archive");
        names.put("ISO-10303-21", "a STEP file");
        names.put("glTF", "a glTF file");
        names.put("<?xml", "an XML document");
        names.put("<", "an XML or HTML document");
        names.put("{", "a JSON document");
        names.put("\u00FF\u00FE", "a text in UTF-16");
        names.put("\u00FE\u00FF", "a text in UTF-16");
        return names;
    }

    static MeshFormat detect(byte[] bytes, String name) {
        if (bytes.length == 0) {
            throw Unreadable.empty("the file is empty");
        }
        if (startsWith(bytes, "PK\u0003\u0004") || startsWith(bytes, "PK\u0005\u0006")) {
            return MeshFormat.THREE_MF;
        }
        if (startsWith(bytes, "ply\n") || startsWith(bytes, "ply\r")) {
            return MeshFormat.PLY;
        }
        long surplus = bytes.length < StlReader.HEADER ? -1
                : bytes.length - StlReader.HEADER - StlReader.RECORD * StlReader.announced(bytes);
        if (surplus == 0) {
            return MeshFormat.STL_BINARY;
        }
        String foreign = foreignName(bytes);
        if (foreign != null) {
            throw unknown("the file is " + foreign + ", not a mesh", name);
        }
        if (isText(bytes)) {
            return textFormat(bytes, name);
        }
        boolean some = bytes.length >= StlReader.HEADER && StlReader.announced(bytes) > 0;
        if (some && surplus <= FORGIVEN && (startsWith(bytes, "solid") || surplus > 0 || plausible(bytes, name))) {
            return MeshFormat.STL_BINARY;
        }
        if (startsWith(bytes, "solid")) {
            return MeshFormat.STL_BINARY;
        }
        throw unknown("the file is no mesh in a known format", name);
    }

    /** True if a file whose length does not fit its count can still be meant as binary STL, cut short. */
    private static boolean plausible(byte[] bytes, String name) {
        return name == null || name.toLowerCase(Locale.ROOT).endsWith(".stl")
                || StlReader.announced(bytes) < 100_000_000;
    }

    private static MeshFormat textFormat(byte[] bytes, String name) {
        TextCursor text = new TextCursor(bytes, TextCursor.afterMark(bytes));
        while (text.next() && bytes[text.from] == '#') {
            text.at = text.from;
            text.skipLine();
        }
        if (text.to == text.from) {
            throw Unreadable.empty("the file holds no mesh, only blanks or comments");
        }
        if (text.is("solid")) {
            return MeshFormat.STL_ASCII;
        }
        if (ObjReader.knows(text.token())) {
            return MeshFormat.OBJ;
        }
        throw unknown("the file is a text that is no mesh: " + text.where() + " starts with " + text.shown(), name);
    }

    private static Rejection unknown(String message, String name) {
        String shown = name == null ? "" : " (" + Unreadable.printable(name) + ")";
        return Unreadable.because("unknown-format", message + shown,
                "Post a mesh as STL, OBJ, PLY or 3MF; a CAD model must be exported as a mesh first.");
    }

    private static String foreignName(byte[] bytes) {
        for (Map.Entry<String, String> entry : FOREIGN.entrySet()) {
            if (startsWith(bytes, entry.getKey())) {
                return entry.getValue();
            }
        }
        return null;
    }

    private static boolean startsWith(byte[] bytes, String magic) {
        byte[] wanted = magic.getBytes(StandardCharsets.ISO_8859_1);
        for (int i = 0; i < wanted.length; i++) {
            if (i >= bytes.length || bytes[i] != wanted[i]) {
                return false;
            }
        }
        return true;
    }

    /** True if the first kilobyte has no control characters but white space. */
    private static boolean isText(byte[] bytes) {
        for (int i = 0; i < Math.min(bytes.length, 1024); i++) {
            if (bytes[i] >= 0 && bytes[i] < ' ' && !TextCursor.isSpace(bytes[i])) {
                return false;
            }
        }
        return true;
    }
}
