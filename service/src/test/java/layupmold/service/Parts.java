package layupmold.service;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.StlWriter;

/** Part files for tests. */
public final class Parts {

    private Parts() {
    }

    /** A dish as an open sheet, a paraboloid of {@code size} across and a sixth of that deep, as binary STL. */
    public static byte[] dish(double size) {
        return dish(size, 0);
    }

    /** The same with a round opening in its middle, a quarter as wide. */
    public static byte[] openDish(double size) {
        return dish(size, 0.25);
    }

    private static byte[] dish(double size, double open) {
        int cells = 40;
        double[] xyz = new double[3 * (cells + 1) * (cells + 1)];
        int[] triangles = new int[6 * cells * cells];
        int n = 0;
        for (int i = 0; i <= cells; i++) {
            for (int j = 0; j <= cells; j++) {
                int v = i * (cells + 1) + j;
                double x = 2.0 * j / cells - 1;
                double y = 2.0 * i / cells - 1;
                // A square grid pulled onto a disc.
                double r = Math.max(Math.abs(x), Math.abs(y));
                double scale = r == 0 ? 0 : r / Math.hypot(x, y);
                xyz[3 * v] = size / 2 * x * scale;
                xyz[3 * v + 1] = size / 2 * y * scale;
                xyz[3 * v + 2] = size / 6 * r * r;
                double middle = Math.max(Math.abs(x + 1.0 / cells), Math.abs(y + 1.0 / cells));
                if (i < cells && j < cells && middle >= open) {
                    for (int corner : new int[] {v, v + 1, v + cells + 2, v, v + cells + 2, v + cells + 1}) {
                        triangles[n++] = corner;
                    }
                }
            }
        }
        return stl(new TriangleMesh(xyz, triangles), "dish");
    }

    /**
     * A tray as an open sheet, its outside in front: a square floor and four plain walls that lean outwards by an eighth,
     * sharp corners between, as binary STL.
     */
    public static byte[] tray(double floor, double height) {
        double inner = floor / 2;
        double outer = inner + height / 8;
        double[] xyz = {
                -inner, -inner, 0, inner, -inner, 0, inner, inner, 0, -inner, inner, 0,
                -outer, -outer, height, outer, -outer, height, outer, outer, height, -outer, outer, height};
        return stl(new TriangleMesh(xyz, new int[] {
                0, 3, 2, 0, 2, 1, 0, 1, 5, 0, 5, 4, 1, 2, 6, 1, 6, 5, 2, 3, 7, 2, 7, 6, 3, 0, 4, 3, 4, 7}), "tray");
    }

    private static byte[] stl(TriangleMesh mesh, String name) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try {
            StlWriter.write(mesh, name, out);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return out.toByteArray();
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
