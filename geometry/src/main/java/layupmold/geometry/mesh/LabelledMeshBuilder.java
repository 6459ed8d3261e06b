package layupmold.geometry.mesh;

import java.util.Arrays;

/** A mesh under construction, with one label a triangle. Amortised O(1) an addition. Not for several threads. */
public final class LabelledMeshBuilder {

    private double[] xyz;
    private int vertexCount;
    private int[] triangles;
    private byte[] labels;
    private int triangleCount;

    /** Starts from a copy of {@code mesh}. */
    public LabelledMeshBuilder(TriangleMesh mesh, byte[] labels) {
        vertexCount = mesh.vertexCount();
        triangleCount = mesh.triangleCount();
        xyz = Arrays.copyOf(mesh.xyz(), mesh.xyz().length + 3 * 1024);
        this.labels = Arrays.copyOf(labels, triangleCount + 1024);
        triangles = Arrays.copyOf(mesh.triangles(), 3 * this.labels.length);
    }

    public int addVertex(double x, double y, double z) {
        if (3 * vertexCount == xyz.length) {
            xyz = Arrays.copyOf(xyz, 3 * (vertexCount + vertexCount / 2 + 1));
        }
        xyz[3 * vertexCount] = x;
        xyz[3 * vertexCount + 1] = y;
        xyz[3 * vertexCount + 2] = z;
        return vertexCount++;
    }

    public void addTriangle(int a, int b, int c, byte label) {
        if (triangleCount == labels.length) {
            labels = Arrays.copyOf(labels, triangleCount + triangleCount / 2 + 1);
            triangles = Arrays.copyOf(triangles, 3 * labels.length);
        }
        triangles[3 * triangleCount] = a;
        triangles[3 * triangleCount + 1] = b;
        triangles[3 * triangleCount + 2] = c;
        labels[triangleCount++] = label;
    }

    public double x(int v) {
        return xyz[3 * v];
    }

    public double y(int v) {
        return xyz[3 * v + 1];
    }

    public double z(int v) {
        return xyz[3 * v + 2];
    }

    public TriangleMesh mesh() {
        return new TriangleMesh(Arrays.copyOf(xyz, 3 * vertexCount), Arrays.copyOf(triangles, 3 * triangleCount));
    }

    public byte[] labels() {
        return Arrays.copyOf(labels, triangleCount);
    }
}
