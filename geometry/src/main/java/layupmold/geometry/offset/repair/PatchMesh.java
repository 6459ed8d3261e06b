package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.ByteArrayList;
import com.carrotsearch.hppc.DoubleArrayList;
import com.carrotsearch.hppc.IntArrayList;
import org.joml.Vector3d;

/**
 * The repaired surface under construction: vertices, triangles, the sheet triangle each belongs to, and on which side of
 * the seam between face and skirt each vertex lies.
 */
final class PatchMesh {

    private final DoubleArrayList xyz = new DoubleArrayList();
    IntArrayList triangles = new IntArrayList();
    /** Sheet triangle whose offset each triangle is, or -1 where it is still to be found. */
    IntArrayList sources = new IntArrayList();

    private final ByteArrayList sides = new ByteArrayList();

    /** Sides of the seam. */
    static final byte FACE = -1;
    static final byte SEAM = 0;
    static final byte SKIRT = 1;

    PatchMesh(double[] start, byte[] startSides) {
        xyz.add(start, 0, start.length);
        sides.add(startSides, 0, startSides.length);
    }

    int addVertex(double x, double y, double z, byte side) {
        xyz.add(x);
        xyz.add(y);
        xyz.add(z);
        sides.add(side);
        return xyz.size() / 3 - 1;
    }

    byte side(int v) {
        return sides.get(v);
    }

    void addTriangle(int a, int b, int c, int source) {
        triangles.add(a);
        triangles.add(b);
        triangles.add(c);
        sources.add(source);
    }

    void replaceTriangles(IntArrayList newTriangles, IntArrayList newSources) {
        triangles = newTriangles;
        sources = newSources;
    }

    double get(int v, int axis) {
        return xyz.buffer[3 * v + axis];
    }

    Vector3d vertex(int v) {
        return new Vector3d(xyz.buffer[3 * v], xyz.buffer[3 * v + 1], xyz.buffer[3 * v + 2]);
    }

    int vertexCount() {
        return xyz.size() / 3;
    }

    double[] coordinates() {
        return xyz.toArray();
    }
}
