package layupmold.geometry.mesh;

import java.util.Arrays;
import org.joml.Vector3d;

/**
 * An indexed triangle mesh on primitive arrays.
 *
 * <p>Vertex {@code v} lies at {@code xyz[3v], xyz[3v+1], xyz[3v+2]} (mm unless said otherwise); triangle {@code t}
 * joins vertices {@code triangles[3t..3t+2]}, counter-clockwise seen from its front. The class enforces only that the
 * array lengths are multiples of three and that indices are in range: it may be open, non-manifold, inside out or
 * self-intersecting. Types that promise more say so by their name.
 *
 * <p>The arrays are shared, not copied, for speed; by convention nobody writes to them after construction.
 */
public final class TriangleMesh {

    private final double[] xyz;
    private final int[] triangles;

    /**
     * @param xyz coordinates, three a vertex
     * @param triangles vertex indices, three a triangle
     * @throws IllegalArgumentException if a length is not a multiple of three or an index is out of range; O(n)
     */
    public TriangleMesh(double[] xyz, int[] triangles) {
        if (xyz.length % 3 != 0 || triangles.length % 3 != 0) {
            throw new IllegalArgumentException("array lengths must be multiples of three");
        }
        int vertexCount = xyz.length / 3;
        for (int v : triangles) {
            if (v < 0 || v >= vertexCount) {
                throw new IllegalArgumentException("vertex index " + v + " is outside 0.." + (vertexCount - 1));
            }
        }
        this.xyz = xyz;
        this.triangles = triangles;
    }

    /**
     * Segments as triangles without width, so that what finds the nearest point of a surface finds that of lines; O(n).
     *
     * @param ends vertex indices, two a segment
     */
    public static TriangleMesh ofSegments(double[] xyz, int[] ends) {
        int[] triangles = new int[3 * (ends.length / 2)];
        for (int s = 0; s < ends.length / 2; s++) {
            triangles[3 * s] = ends[2 * s];
            triangles[3 * s + 1] = ends[2 * s + 1];
            triangles[3 * s + 2] = ends[2 * s + 1];
        }
        return new TriangleMesh(xyz, triangles);
    }

    /** The coordinate array itself, three a vertex. Read only by convention. */
    public double[] xyz() {
        return xyz;
    }

    /** The index array itself, three a triangle. Read only by convention. */
    public int[] triangles() {
        return triangles;
    }

    public int vertexCount() {
        return xyz.length / 3;
    }

    public int triangleCount() {
        return triangles.length / 3;
    }

    /** Position of vertex {@code v}. */
    public Vector3d vertex(int v) {
        return new Vector3d(xyz[3 * v], xyz[3 * v + 1], xyz[3 * v + 2]);
    }

    /** Position of corner {@code corner} (0..2) of triangle {@code t}. */
    public Vector3d corner(int t, int corner) {
        return vertex(triangles[3 * t + corner]);
    }

    /** Centroid of triangle {@code t}. */
    public Vector3d centroid(int t) {
        return corner(t, 0).add(corner(t, 1)).add(corner(t, 2)).div(3);
    }

    /** Normal of triangle {@code t} with length twice its area; zero for a degenerate triangle. */
    public Vector3d areaNormal(int t) {
        Vector3d a = corner(t, 0);
        return corner(t, 1).sub(a).cross(corner(t, 2).sub(a));
    }

    /** Angle of triangle {@code t} at its vertex {@code v}, radians; 0 where one of its sides there has no length. */
    public double angle(int t, int v) {
        int corner = triangles[3 * t] == v ? 0 : triangles[3 * t + 1] == v ? 1 : 2;
        int a = 3 * v;
        int b = 3 * triangles[3 * t + (corner + 1) % 3];
        int c = 3 * triangles[3 * t + (corner + 2) % 3];
        double ux = xyz[b] - xyz[a];
        double uy = xyz[b + 1] - xyz[a + 1];
        double uz = xyz[b + 2] - xyz[a + 2];
        double wx = xyz[c] - xyz[a];
        double wy = xyz[c + 1] - xyz[a + 1];
        double wz = xyz[c + 2] - xyz[a + 2];
        double cx = uy * wz - uz * wy;
        double cy = uz * wx - ux * wz;
        double cz = ux * wy - uy * wx;
        return Math.atan2(Math.sqrt(cx * cx + cy * cy + cz * cz), ux * wx + uy * wy + uz * wz);
    }

    /** Unit normals of all triangles, three numbers each; zero where a triangle has no area. */
    public double[] unitNormals() {
        double[] normals = new double[triangles.length];
        for (int t = 0; t < triangles.length; t += 3) {
            int a = 3 * triangles[t];
            int b = 3 * triangles[t + 1];
            int c = 3 * triangles[t + 2];
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
            if (length > 0) {
                normals[t] = nx / length;
                normals[t + 1] = ny / length;
                normals[t + 2] = nz / length;
            }
        }
        return normals;
    }

    /** Areas of all triangles, mm². */
    public double[] areas() {
        double[] areas = new double[triangleCount()];
        for (int t = 0; t < areas.length; t++) {
            areas[t] = areaNormal(t).length() / 2;
        }
        return areas;
    }

    /** Sum of triangle areas, mm². */
    public double area() {
        double twice = 0;
        for (int t = 0; t < triangleCount(); t++) {
            twice += areaNormal(t).length();
        }
        return twice / 2;
    }

    /**
     * Signed volume by the divergence theorem, mm³; meaningful for a closed mesh, positive if its triangles face
     * outward. Taken about the first vertex so that meshes far from the origin keep their digits.
     */
    public double volume() {
        if (triangles.length == 0) {
            return 0;
        }
        Vector3d origin = vertex(triangles[0]);
        double six = 0;
        for (int t = 0; t < triangleCount(); t++) {
            Vector3d a = corner(t, 0).sub(origin);
            Vector3d b = corner(t, 1).sub(origin);
            Vector3d c = corner(t, 2).sub(origin);
            six += a.dot(b.cross(c));
        }
        return six / 6;
    }

    /** Axis-aligned bounds of all vertices as {@code {minX, minY, minZ, maxX, maxY, maxZ}}; NaN for an empty mesh. */
    public double[] bounds() {
        double[] box = new double[6];
        if (xyz.length == 0) {
            Arrays.fill(box, Double.NaN);
            return box;
        }
        System.arraycopy(xyz, 0, box, 0, 3);
        System.arraycopy(xyz, 0, box, 3, 3);
        for (int i = 3; i < xyz.length; i += 3) {
            for (int k = 0; k < 3; k++) {
                box[k] = Math.min(box[k], xyz[i + k]);
                box[3 + k] = Math.max(box[3 + k], xyz[i + k]);
            }
        }
        return box;
    }

    /** The same triangles facing the other way. */
    public TriangleMesh flipped() {
        int[] flipped = triangles.clone();
        for (int t = 0; t < flipped.length; t += 3) {
            int swap = flipped[t + 1];
            flipped[t + 1] = flipped[t + 2];
            flipped[t + 2] = swap;
        }
        return new TriangleMesh(xyz, flipped);
    }
}
