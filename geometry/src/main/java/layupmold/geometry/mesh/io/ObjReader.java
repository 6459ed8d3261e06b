package layupmold.geometry.mesh.io;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Wavefront OBJ, the polygon part of it (Object Files, appendix B1 of the Advanced Visualizer manual): vertices and
 * faces, negative indices, line continuation. Texture, normals, colours, groups, lines and curves are passed over.
 * O(bytes).
 */
final class ObjReader {

    private static final Set<String> PASSED_OVER = Set.of("vn", "vt", "vp", "g", "o", "s", "mg", "l", "p", "mtllib",
            "usemtl", "maplib", "usemap", "bevel", "c_interp", "d_interp", "lod", "shadow_obj", "trace_obj", "cstype",
            "deg", "bmat", "step", "curv", "curv2", "surf", "parm", "trim", "hole", "scrv", "sp", "end", "con", "ctech",
            "stech", "call", "csh");

    private final TextCursor text;
    private final PolygonSoup soup;
    private int highest = -1;
    private int highestAt;
    private int strangers;
    private String firstStranger;

    private ObjReader(byte[] bytes, MeshLimits limits) {
        text = new TextCursor(bytes, TextCursor.afterMark(bytes));
        soup = new PolygonSoup(limits);
    }

    static PartFile read(byte[] bytes, MeshLimits limits) {
        return new ObjReader(bytes, limits).read();
    }

    /** True if a line that starts with {@code keyword} can be the first of an OBJ file. */
    static boolean knows(String keyword) {
        return keyword.equals("v") || keyword.equals("f") || PASSED_OVER.contains(keyword);
    }

    private PartFile read() {
        while (text.next()) {
            statement();
            text.skipLine();
        }
        if (soup.faceCount() == 0) {
            throw Unreadable.empty("the OBJ file has " + soup.vertexCount() + " vertices and no faces");
        }
        if (highest >= soup.vertexCount()) {
            throw Unreadable.index("line " + text.line(highestAt) + ": a face names vertex " + (highest + 1L)
                    + ", but the file has " + soup.vertexCount());
        }
        TriangleMesh mesh = soup.toMesh();
        List<Finding> findings = new ArrayList<>(soup.findings());
        if (strangers > 0) {
            findings.add(Finding.warning("read", "lines-ignored",
                    strangers + " lines are no OBJ statements and were ignored, the first at " + firstStranger));
        }
        return new PartFile(mesh, "obj", null, findings);
    }

    private void statement() {
        if (text.bytes[text.from] == '#') {
            text.at = text.from;
        } else if (text.is("v")) {
            vertex();
        } else if (text.is("f") || text.is("fo")) {
            face();
        } else {
            if (!PASSED_OVER.contains(text.token())) {
                strangers++;
                firstStranger = firstStranger == null ? text.where() + ": " + text.shown() : firstStranger;
            }
            passOver();
        }
    }

    /** Moves past the continued lines of a statement that is not read. */
    private void passOver() {
        int lineEnd = text.at;
        while (lineEnd < text.end && !TextCursor.isBreak(text.bytes[lineEnd])) {
            lineEnd++;
        }
        text.at = lineEnd;
        while (lineEnd > 0 && text.bytes[lineEnd - 1] == '\\' && lineEnd < text.end) {
            text.skipLine();
            lineEnd = text.at;
            while (lineEnd < text.end && !TextCursor.isBreak(text.bytes[lineEnd])) {
                lineEnd++;
            }
            text.at = lineEnd;
        }
    }

    /** Next word of this statement, on this line or one that continues it. */
    private boolean word() {
        while (text.nextOnLine()) {
            if (text.bytes[text.from] == '#') {
                text.at = text.from;
                text.to = text.from;
                return false;
            }
            boolean lineEnds = text.to == text.end || TextCursor.isBreak(text.bytes[text.to]);
            if (text.bytes[text.to - 1] != '\\' || !lineEnds) {
                return true;
            }
            if (text.to - text.from > 1) {
                text.to--;
                text.at = text.to;
                return true;
            }
            text.skipLine();
        }
        return false;
    }

    private void vertex() {
        double x = coordinate();
        double y = coordinate();
        soup.addVertex(x, y, coordinate());
        passOver();
    }

    private double coordinate() {
        if (!word()) {
            throw text.at >= text.end ? Unreadable.truncated("line " + text.line(text.end) + ": a vertex is cut short")
                    : Unreadable.syntax("line " + text.line(text.from) + ": a vertex needs three numbers");
        }
        return text.coordinate();
    }

    private void face() {
        while (word()) {
            soup.addCorner(vertexIndex());
        }
        soup.endFace();
    }

    /** Index, counted from 0, at the head of a corner such as {@code 7}, {@code 7/1}, {@code 7//3} or {@code -2/1/3}. */
    private int vertexIndex() {
        int i = text.from;
        boolean negative = text.bytes[i] == '-';
        if (negative) {
            i++;
        }
        long value = 0;
        int digits = i;
        for (; i < text.to && text.bytes[i] >= '0' && text.bytes[i] <= '9'; i++) {
            value = Math.min(Integer.MAX_VALUE, 10 * value + text.bytes[i] - '0');
        }
        if (i == digits || i < text.to && text.bytes[i] != '/') {
            throw Unreadable.because("bad-number", text.where() + ": " + text.shown() + " is not a vertex index",
                    "The file is damaged: export it again.");
        }
        long index = negative ? soup.vertexCount() - value : value - 1;
        if (value == 0 || index < 0) {
            throw Unreadable.index(text.where() + ": a face names vertex " + (negative ? "-" : "") + value + ", but "
                    + soup.vertexCount() + " are defined so far and they count from 1");
        }
        if (index > highest) {
            highest = (int) index;
            highestAt = text.from;
        }
        return (int) index;
    }
}
