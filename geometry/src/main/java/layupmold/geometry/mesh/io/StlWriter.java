package layupmold.geometry.mesh.io;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import layupmold.geometry.mesh.TriangleMesh;

/** Writes binary STL (3D Systems, StereoLithography Interface Specification, 1989). */
public final class StlWriter {

    private static final int BATCH = 4096;

    private StlWriter() {
    }

    /**
     * Writes {@code mesh} with coordinates rounded to float32; the mesh's unit is not recorded, STL has none. O(n).
     *
     * @param header text for the first 80 bytes; cut there, other than printable ASCII replaced, and never starting
     *     with "solid", which would make it look like the text format
     */
    public static void write(TriangleMesh mesh, String header, OutputStream out) throws IOException {
        ByteBuffer buffer = ByteBuffer.allocate(StlReader.RECORD * BATCH).order(ByteOrder.LITTLE_ENDIAN);
        byte[] head = header(header);
        buffer.put(head).putInt(mesh.triangleCount());
        flush(buffer, out);
        for (int t = 0; t < mesh.triangleCount(); t++) {
            if (buffer.remaining() < StlReader.RECORD) {
                flush(buffer, out);
            }
            put(mesh, t, buffer);
        }
        flush(buffer, out);
    }

    private static byte[] header(String text) {
        byte[] bytes = new byte[80];
        String safe = text.replaceAll("[^ -~]", "?");
        safe = safe.toLowerCase(java.util.Locale.ROOT).startsWith("solid") ? " " + safe : safe;
        byte[] ascii = safe.getBytes(StandardCharsets.US_ASCII);
        System.arraycopy(ascii, 0, bytes, 0, Math.min(80, ascii.length));
        return bytes;
    }

    private static void flush(ByteBuffer buffer, OutputStream out) throws IOException {
        out.write(buffer.array(), 0, buffer.position());
        buffer.clear();
    }

    private static void put(TriangleMesh mesh, int t, ByteBuffer buffer) {
        double[] xyz = mesh.xyz();
        int a = 3 * mesh.triangles()[3 * t];
        int b = 3 * mesh.triangles()[3 * t + 1];
        int c = 3 * mesh.triangles()[3 * t + 2];
        double ux = xyz[b] - xyz[a];
        double uy = xyz[b + 1] - xyz[a + 1];
        double uz = xyz[b + 2] - xyz[a + 2];
        double vx = xyz[c] - xyz[a];
        double vy = xyz[c + 1] - xyz[a + 1];
        double vz = xyz[c + 2] - xyz[a + 2];
        double nx = uy * vz - uz * vy;
        double ny = uz * vx - ux * vz;
        double nz = ux * vy - uy * vx;
        double length = Math.sqrt(nx * nx + ny * ny + nz * nz);
        double scale = length > 0 ? 1 / length : 0;
        buffer.putFloat((float) (nx * scale)).putFloat((float) (ny * scale)).putFloat((float) (nz * scale));
        put(xyz, a, buffer);
        put(xyz, b, buffer);
        put(xyz, c, buffer);
        buffer.putShort((short) 0);
    }

    private static void put(double[] xyz, int at, ByteBuffer buffer) {
        buffer.putFloat((float) xyz[at]).putFloat((float) xyz[at + 1]).putFloat((float) xyz[at + 2]);
    }
}
