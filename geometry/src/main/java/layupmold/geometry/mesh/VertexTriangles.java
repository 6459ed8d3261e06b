package layupmold.geometry.mesh;

/**
 * The triangles around every vertex, in compressed rows: those of vertex {@code v} are
 * {@code triangle(i)} for {@code start(v) <= i < start(v + 1)}, ascending. Built in O(n).
 */
public final class VertexTriangles {

    private final int[] start;
    private final int[] triangles;

    private VertexTriangles(int[] start, int[] triangles) {
        this.start = start;
        this.triangles = triangles;
    }

    public static VertexTriangles of(TriangleMesh mesh) {
        int[] corners = mesh.triangles();
        int[] start = new int[mesh.vertexCount() + 1];
        for (int v : corners) {
            start[v + 1]++;
        }
        for (int v = 0; v < mesh.vertexCount(); v++) {
            start[v + 1] += start[v];
        }
        int[] fill = start.clone();
        int[] triangles = new int[corners.length];
        for (int i = 0; i < corners.length; i++) {
            triangles[fill[corners[i]]++] = i / 3;
        }
        return new VertexTriangles(start, triangles);
    }

    public int start(int v) {
        return start[v];
    }

    public int triangle(int i) {
        return triangles[i];
    }
}
