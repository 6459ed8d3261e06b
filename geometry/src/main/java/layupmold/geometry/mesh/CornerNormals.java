package layupmold.geometry.mesh;

/**
 * Normals of a mesh as if its smooth parts were curved: at a corner the area-weighted mean of those triangles around
 * its vertex that lean less than the crease angle from the corner's own triangle. Flat facets of a curved wall so share
 * a normal, while both sides of an edge keep theirs. Built in O(n).
 */
public final class CornerNormals {

    /** Triangles that meet at a larger angle show an edge. */
    public static final double CREASE_DEG = 38;

    /** Around a vertex with more triangles than this the mean is left out: its cost grows with their square. */
    private static final int MOST_AROUND = 96;

    private final TriangleMesh mesh;
    private final double[] unit;
    private final double cosine = Math.cos(Math.toRadians(CREASE_DEG));
    private final VertexTriangles around;

    /** @param unitNormals {@link TriangleMesh#unitNormals} of {@code mesh} */
    public CornerNormals(TriangleMesh mesh, double[] unitNormals) {
        this.mesh = mesh;
        this.unit = unitNormals;
        this.around = VertexTriangles.of(mesh);
    }

    /** Writes the unit normal of corner {@code c} (of triangle {@code c / 3}) to {@code out[at..at+2]}. */
    public void put(int c, double[] out, int at) {
        int v = mesh.triangles()[c];
        int own = c - c % 3;
        int from = around.start(v);
        int to = around.start(v + 1);
        double x = 0;
        double y = 0;
        double z = 0;
        for (int i = from; i < to && to - from <= MOST_AROUND; i++) {
            int t = 3 * around.triangle(i);
            if (unit[own] * unit[t] + unit[own + 1] * unit[t + 1] + unit[own + 2] * unit[t + 2] >= cosine) {
                double area = area(t);
                x += area * unit[t];
                y += area * unit[t + 1];
                z += area * unit[t + 2];
            }
        }
        double length = Math.sqrt(x * x + y * y + z * z);
        boolean found = length > 0;
        out[at] = found ? x / length : unit[own];
        out[at + 1] = found ? y / length : unit[own + 1];
        out[at + 2] = found ? z / length : unit[own + 2];
    }

    /** Twice the area of the triangle whose first corner is {@code c}. */
    private double area(int c) {
        double[] p = mesh.xyz();
        int[] corners = mesh.triangles();
        int a = 3 * corners[c];
        int b = 3 * corners[c + 1];
        int d = 3 * corners[c + 2];
        double ux = p[b] - p[a];
        double uy = p[b + 1] - p[a + 1];
        double uz = p[b + 2] - p[a + 2];
        double vx = p[d] - p[a];
        double vy = p[d + 1] - p[a + 1];
        double vz = p[d + 2] - p[a + 2];
        double nx = uy * vz - uz * vy;
        double ny = uz * vx - ux * vz;
        double nz = ux * vy - uy * vx;
        return Math.sqrt(nx * nx + ny * ny + nz * nz);
    }
}
