package layupmold.geometry.mesh.io;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import layupmold.geometry.finding.Finding;
import org.junit.jupiter.api.Test;

/** Layouts follow G. Turk, The PLY Polygon File Format, 1994 (from memory). */
class PlyReaderTest {

    private static final String HEADER = """
            ply
            format %s 1.0
            comment a wing, with everything in an odd order
            element edge 1
            property int vertex1
            property list uchar short marks
            element vertex 4
            property uchar red
            property double y
            property float x
            property int16 z
            element face 2
            property float quality
            property list uint8 int32 vertex_indices
            property list int double more
            end_header
            """;
    private static final double[] XYZ = {0, 0, 0, 3, 0.25, 0, 3, 2, 0, 0, 2, -7};

    static String ascii() {
        return HEADER.formatted("ascii")
                + "9 2 1 2\n200 0 0 0\n1 0.25 3 0\n2 2 3 0\n3 2 0 -7\n0.5 4 0 1 2 3 1 4.5\n1 3 0 2 1 0\n";
    }

    static byte[] binary(ByteOrder order) {
        String name = order == ByteOrder.BIG_ENDIAN ? "binary_big_endian" : "binary_little_endian";
        byte[] header = HEADER.formatted(name).getBytes(StandardCharsets.US_ASCII);
        ByteBuffer body = ByteBuffer.allocate(1000).order(order);
        body.put(header).putInt(9).put((byte) 2).putShort((short) 1).putShort((short) 2);
        for (int v = 0; v < 4; v++) {
            body.put((byte) 200).putDouble(XYZ[3 * v + 1]).putFloat((float) XYZ[3 * v])
                    .putShort((short) XYZ[3 * v + 2]);
        }
        body.putFloat(0.5f).put((byte) 4).putInt(0).putInt(1).putInt(2).putInt(3).putInt(1).putDouble(4.5);
        body.putFloat(1).put((byte) 3).putInt(0).putInt(2).putInt(1).putInt(0);
        return Arrays.copyOf(body.array(), body.position());
    }

    private static void assertRefused(byte[] bytes, String code, String words) {
        Finding finding = Readings.refusal(bytes);
        assertEquals(code, finding.code(), finding.message());
        assertTrue(finding.message().contains(words), finding.message());
    }

    private static void assertRefused(String text, String code, String words) {
        assertRefused(text.getBytes(StandardCharsets.US_ASCII), code, words);
    }

    @Test
    void allThreeEncodingsGiveTheSame() {
        PartFile text = Readings.read(ascii());
        PartFile little = Readings.read(binary(ByteOrder.LITTLE_ENDIAN));
        PartFile big = Readings.read(binary(ByteOrder.BIG_ENDIAN));
        assertEquals("ply-ascii", text.format());
        assertEquals("ply-binary", big.format());
        for (PartFile file : new PartFile[] {text, little, big}) {
            assertArrayEquals(XYZ, file.mesh().xyz());
            assertEquals(3, file.mesh().triangleCount());
            assertArrayEquals(new int[] {0, 2, 1}, Arrays.copyOfRange(file.mesh().triangles(), 6, 9));
        }
        assertArrayEquals(text.mesh().triangles(), big.mesh().triangles());
    }

    @Test
    void linesMayEndLikeOnOldMachines() {
        assertEquals(3, Readings.read(ascii().replace("\n", "\r\n")).mesh().triangleCount());
        assertEquals(3, Readings.read(ascii().replace("\n", "\r")).mesh().triangleCount());
    }

    @Test
    void everyCutIsRefused() {
        byte[] binary = binary(ByteOrder.LITTLE_ENDIAN);
        for (int length = 0; length < binary.length; length++) {
            Readings.refusal(Arrays.copyOf(binary, length));
        }
        assertRefused(Arrays.copyOf(binary, binary.length - 1), "truncated", "byte");
        String text = ascii();
        assertRefused(text.substring(0, text.length() - 3), "truncated", "line");
    }

    @Test
    void countsBeyondTheFileAreRefusedWithoutMemory() {
        assertRefused(ascii().replace("vertex 4", "vertex 4294967295"), "truncated", "4294967295");
        assertRefused(ascii().replace("face 2", "face 999999999999999999"), "truncated", "999999999999999999");
        assertRefused(ascii().replace("0.5 4 0", "0.5 400000000 0"), "truncated", "400000000");
        assertRefused(ascii().replace("vertex 4", "vertex four"), "bad-syntax", "line 7");
        byte[] binary = binary(ByteOrder.LITTLE_ENDIAN);
        String all = new String(binary, StandardCharsets.ISO_8859_1).replace("face 2", "face 2000000000");
        assertRefused(all.getBytes(StandardCharsets.ISO_8859_1), "truncated", "2000000000");
        String bare = "ply\nformat ascii 1.0\nelement nothing 999999999999\nend_header\n";
        assertRefused(bare, "empty", "0 vertices");
    }

    @Test
    void nonsenseIsRefused() {
        assertRefused(ascii().replace("0.5 4 0 1 2 3", "0.5 4 0 1 2 4"), "index-out-of-range", "face 0");
        assertRefused(ascii().replace("0.5 4 0 1 2 3", "0.5 4 0 1 2 -1"), "index-out-of-range", "face 0");
        assertRefused(ascii().replace("0.5 4 0", "0.5 -4 0"), "bad-syntax", "-4");
        assertRefused(ascii().replace("1 0.25 3", "1 nan 3"), "coordinate-not-finite", "line 19");
        assertRefused(ascii().replace("1 0.25 3", "1 wide 3"), "bad-number", "line 19");
        assertRefused(ascii().replace("1 0.25 3", "1 1e99 3"), "coordinate-out-of-range", "vertex 1");
        assertRefused(ascii().replace("property float x", "property float a"), "bad-syntax", "x, y and z");
        assertRefused(ascii().replace("vertex_indices", "corners"), "bad-syntax", "vertex_indices");
        assertRefused(ascii().replace("property int16", "property quad"), "bad-syntax", "line 11");
        assertRefused(ascii().replace("format ascii 1.0\n", ""), "bad-syntax", "format");
        byte[] binary = binary(ByteOrder.BIG_ENDIAN);
        int y = new String(binary, StandardCharsets.ISO_8859_1).indexOf("end_header\n") + 11 + 9 + 1;
        ByteBuffer.wrap(binary).putDouble(y, Double.NaN);
        assertRefused(binary, "coordinate-not-finite", "vertex 0");
    }

    @Test
    void pointCloudIsEmpty() {
        assertRefused("ply\nformat ascii 1.0\nelement vertex 1\nproperty float x\nproperty float y\nproperty float z\n"
                + "end_header\n1 2 3\n", "empty", "no faces");
    }
}
