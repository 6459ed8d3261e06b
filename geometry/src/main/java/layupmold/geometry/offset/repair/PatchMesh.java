package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.DoubleArrayList;
import com.carrotsearch.hppc.IntArrayList;
import org.joml.Vector3d;

/**
 * The repaired surface under construction: vertices, triangles, and the moved triangle that each is a part of.
 */
final class PatchMesh {

    private final DoubleArrayList xyz = new DoubleArrayList();
    IntArrayList triangles = new IntArrayList();
    /** Moved triangle that each triangle is a part of, or -1 where it was contoured. */
    IntArrayList sources = new IntArrayList();

    PatchMesh(double[] start) {
        xyz.add(start, 0, start.length);
    }

    int addVertex(double x, double y, double z) {
        xyz.add(x);
        xyz.add(y);
        xyz.add(z);
        return xyz.size() / 3 - 1;
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
