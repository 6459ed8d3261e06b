package layupmold.service;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;

/** Part files for tests. */
public final class Parts {

    private Parts() {
    }

    /** A tetrahedron with edges along the axes, as binary STL. */
    public static byte[] tetrahedron(float size) {
        return tetrahedra(size, 1);
    }

    /** The same one so many times over. */
    public static byte[] tetrahedra(float size, int times) {
        float[][] p = {{0, 0, 0}, {size, 0, 0}, {0, size, 0}, {0, 0, size}};
        int[][] faces = {{0, 2, 1}, {0, 1, 3}, {1, 2, 3}, {0, 3, 2}};
        ByteBuffer file = ByteBuffer.allocate(84 + 50 * faces.length * times).order(ByteOrder.LITTLE_ENDIAN);
        file.put("tetrahedron".getBytes(StandardCharsets.US_ASCII)).position(80);
        file.putInt(faces.length * times);
        for (int i = 0; i < faces.length * times; i++) {
            int[] face = faces[i % faces.length];
            file.putFloat(0).putFloat(0).putFloat(0);
            for (int corner : face) {
                file.putFloat(p[corner][0]).putFloat(p[corner][1]).putFloat(p[corner][2]);
            }
            file.putShort((short) 0);
        }
        return file.array();
    }
}
