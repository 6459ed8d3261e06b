package layupmold.geometry.mesh.io;

import java.lang.invoke.MethodHandles;
import java.lang.invoke.VarHandle;
import java.nio.ByteOrder;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/**
 * STL, binary and ASCII (3D Systems, StereoLithography Interface Specification, 1989). Stored normals are ignored: the
 * order of the corners says which side is out. O(bytes).
 */
final class StlReader {

    static final int HEADER = 84;
    static final int RECORD = 50;

    private static final int GRAIN = 1 << 16;
    private static final VarHandle FLOAT = MethodHandles.byteArrayViewVarHandle(float[].class,
            ByteOrder.LITTLE_ENDIAN);
    private static final VarHandle INT = MethodHandles.byteArrayViewVarHandle(int[].class, ByteOrder.LITTLE_ENDIAN);

    private StlReader() {
    }

    /** Triangles that a binary header announces; {@code bytes} has 84 or more. */
    static long announced(byte[] bytes) {
        return (int) INT.get(bytes, 80) & 0xFFFFFFFFL;
    }

    static PartFile readBinary(byte[] bytes, MeshLimits limits) {
        if (bytes.length < HEADER) {
            throw Unreadable.truncated("a binary STL file has a header of 84 bytes; this one ends at byte "
                    + bytes.length);
        }
        long announced = announced(bytes);
        long whole = HEADER + RECORD * announced;
        if (whole > bytes.length) {
            throw Unreadable.truncated("the STL header announces " + announced + " triangles, which take " + whole
                    + " bytes; the file ends at byte " + bytes.length + ", in triangle "
                    + (bytes.length - HEADER) / RECORD);
        }
        if (announced == 0) {
            throw Unreadable.empty("the STL file has no triangles");
        }
        if (announced > limits.maxTriangles()) {
            throw Unreadable.tooManyTriangles(announced, limits);
        }
        if (3 * announced > limits.maxVertices()) {
            throw Unreadable.tooManyVertices(3 * announced, limits);
        }
        TriangleMesh mesh = decode(bytes, (int) announced);
        List<Finding> findings = whole == bytes.length ? List.of() : List.of(Finding.warning("read", "trailing-bytes",
                bytes.length - whole + " bytes after the last triangle were ignored"));
        return new PartFile(mesh, "stl-binary", null, findings);
    }

    private static TriangleMesh decode(byte[] bytes, int count) {
        double[] xyz = new double[9 * count];
        int[] triangles = new int[3 * count];
        int[] bad = new int[Parallel.chunkCount(count, GRAIN)];
        Parallel.forRanges(count, GRAIN, (chunk, from, to) -> bad[chunk] = decode(bytes, from, to, xyz, triangles));
        int first = Arrays.stream(bad).filter(t -> t >= 0).findFirst().orElse(-1);
        if (first >= 0) {
            double[] corners = Arrays.copyOfRange(xyz, 9 * first, 9 * first + 9);
            double wrong = Arrays.stream(corners).filter(c -> !inRange(c)).findFirst().orElseThrow();
            throw Unreadable.coordinate("triangle " + first + " (byte " + (HEADER + (long) RECORD * first) + ")",
                    wrong, null);
        }
        return new TriangleMesh(xyz, triangles);
    }

    /** Decodes a range of triangles; the first one with an unusable coordinate, or -1. */
    private static int decode(byte[] bytes, int from, int to, double[] xyz, int[] triangles) {
        int bad = -1;
        for (int t = from; t < to; t++) {
            int record = HEADER + RECORD * t + 12;
            boolean good = true;
            for (int k = 0; k < 9; k++) {
                double c = (float) FLOAT.get(bytes, record + 4 * k);
                xyz[9 * t + k] = c;
                good &= inRange(c);
            }
            for (int k = 3 * t; k < 3 * t + 3; k++) {
                triangles[k] = k;
            }
            if (!good && bad < 0) {
                bad = t;
            }
        }
        return bad;
    }

    private static boolean inRange(double coordinate) {
        return Math.abs(coordinate) <= Unreadable.MAX_COORDINATE;
    }

    static PartFile readAscii(byte[] bytes, MeshLimits limits) {
        TextCursor text = new TextCursor(bytes, TextCursor.afterMark(bytes));
        PolygonSoup soup = new PolygonSoup(limits);
        boolean open = false;
        while (text.next()) {
            if (open && text.is("facet")) {
                facet(text, soup);
            } else if (open && text.is("endsolid")) {
                open = false;
                text.skipLine();
            } else if (!open && text.is("solid")) {
                open = true;
                text.skipLine();
            } else {
                throw text.unexpected(open ? "facet or endsolid" : "solid");
            }
        }
        if (open) {
            throw Unreadable.truncated(text.where() + ": the STL file ends without endsolid, after triangle "
                    + (soup.faceCount() - 1));
        }
        if (soup.faceCount() == 0) {
            throw Unreadable.empty("the STL file has no triangles");
        }
        return new PartFile(soup.toMesh(), "stl-ascii", null, List.of());
    }

    private static void facet(TextCursor text, PolygonSoup soup) {
        expect(text, "normal");
        for (int k = 0; k < 3; k++) {
            // Normals are not used, and some programs write NaN for those of thin triangles.
            if (!text.next()) {
                throw text.unexpected("a normal");
            }
        }
        expect(text, "outer");
        expect(text, "loop");
        for (int corner = 0; corner < 3; corner++) {
            expect(text, "vertex");
            double x = number(text);
            double y = number(text);
            soup.addCorner(soup.addVertex(x, y, number(text)));
        }
        expect(text, "endloop");
        expect(text, "endfacet");
        soup.endFace();
    }

    private static double number(TextCursor text) {
        if (!text.next()) {
            throw text.unexpected("a coordinate");
        }
        return text.coordinate();
    }

    private static void expect(TextCursor text, String keyword) {
        if (!text.next() || !text.is(keyword)) {
            throw text.unexpected(keyword);
        }
    }
}
