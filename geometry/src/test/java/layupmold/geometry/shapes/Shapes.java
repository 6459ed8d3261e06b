package layupmold.geometry.shapes;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.function.UnaryOperator;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/** Closed-form meshes for tests. */
public final class Shapes {

    private Shapes() {
    }

    /** A closed sphere of {@code rings} latitude bands and twice as many segments, facing outward. */
    public static TriangleMesh sphere(double radius, int rings) {
        int segments = 2 * rings;
        double[] xyz = new double[3 * (2 + (rings - 1) * segments)];
        int[] triangles = new int[6 * segments * (rings - 1)];
        xyz[2] = -radius;
        int south = 0;
        int north = xyz.length / 3 - 1;
        xyz[3 * north + 2] = radius;
        for (int i = 1; i < rings; i++) {
            double phi = Math.PI * i / rings - Math.PI / 2;
            for (int j = 0; j < segments; j++) {
                double theta = 2 * Math.PI * j / segments;
                int v = 3 * (1 + (i - 1) * segments + j);
                xyz[v] = radius * Math.cos(phi) * Math.cos(theta);
                xyz[v + 1] = radius * Math.cos(phi) * Math.sin(theta);
                xyz[v + 2] = radius * Math.sin(phi);
            }
        }
        int n = 0;
        for (int j = 0; j < segments; j++) {
            int k = (j + 1) % segments;
            n = put(triangles, n, south, 1 + k, 1 + j);
            n = put(triangles, n, north, 1 + (rings - 2) * segments + j, 1 + (rings - 2) * segments + k);
        }
        for (int i = 0; i < rings - 2; i++) {
            for (int j = 0; j < segments; j++) {
                int k = (j + 1) % segments;
                int a = 1 + i * segments + j;
                int b = 1 + i * segments + k;
                n = put(triangles, n, a, b, b + segments);
                n = put(triangles, n, a, b + segments, a + segments);
            }
        }
        return new TriangleMesh(xyz, triangles);
    }

    /**
     * A bowl: the cap of a sphere about the origin from its south pole up to polar angle {@code halfAngleDeg}, facing
     * up (to the inside).
     */
    public static TriangleMesh bowl(double radius, double halfAngleDeg, int rings, int segments) {
        double[] xyz = new double[3 * (1 + rings * segments)];
        int[] triangles = new int[3 * (segments + 2 * segments * (rings - 1))];
        xyz[2] = -radius;
        for (int i = 1; i <= rings; i++) {
            double theta = Math.toRadians(halfAngleDeg) * i / rings;
            for (int j = 0; j < segments; j++) {
                double phi = 2 * Math.PI * j / segments;
                int v = 3 * (1 + (i - 1) * segments + j);
                xyz[v] = radius * Math.sin(theta) * Math.cos(phi);
                xyz[v + 1] = radius * Math.sin(theta) * Math.sin(phi);
                xyz[v + 2] = -radius * Math.cos(theta);
            }
        }
        int n = 0;
        for (int j = 0; j < segments; j++) {
            n = put(triangles, n, 0, 1 + j, 1 + (j + 1) % segments);
        }
        for (int i = 0; i < rings - 1; i++) {
            for (int j = 0; j < segments; j++) {
                int a = 1 + i * segments + j;
                int b = 1 + i * segments + (j + 1) % segments;
                n = put(triangles, n, a, a + segments, b + segments);
                n = put(triangles, n, a, b + segments, b);
            }
        }
        return new TriangleMesh(xyz, triangles);
    }

    /** An open square sheet of {@code cells}² quads in the plane z = 0, facing up. */
    public static TriangleMesh sheet(double size, int cells) {
        int row = cells + 1;
        double[] xyz = new double[3 * row * row];
        int[] triangles = new int[6 * cells * cells];
        for (int i = 0; i < row; i++) {
            for (int j = 0; j < row; j++) {
                xyz[3 * (i * row + j)] = size * j / cells;
                xyz[3 * (i * row + j) + 1] = size * i / cells;
            }
        }
        int n = 0;
        for (int i = 0; i < cells; i++) {
            for (int j = 0; j < cells; j++) {
                int a = i * row + j;
                n = put(triangles, n, a, a + 1, a + row + 1);
                n = put(triangles, n, a, a + row + 1, a + row);
            }
        }
        return new TriangleMesh(xyz, triangles);
    }

    /** Separate small triangles at random places in the unit cube. */
    public static TriangleMesh confetti(int count, double size, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        double[] xyz = new double[9 * count];
        int[] triangles = new int[3 * count];
        for (int t = 0; t < count; t++) {
            double[] centre = {random.nextDouble(), random.nextDouble(), random.nextDouble()};
            for (int i = 0; i < 9; i++) {
                xyz[9 * t + i] = centre[i % 3] + size * (random.nextDouble() - 0.5);
            }
            put(triangles, 3 * t, 3 * t, 3 * t + 1, 3 * t + 2);
        }
        return new TriangleMesh(xyz, triangles);
    }

    private static int put(int[] triangles, int n, int a, int b, int c) {
        triangles[n] = a;
        triangles[n + 1] = b;
        triangles[n + 2] = c;
        return n + 3;
    }

    /** The same surface with four triangles for each: triangle {@code t} becomes {@code 4t} to {@code 4t + 3}. */
    public static TriangleMesh splitInFour(TriangleMesh mesh) {
        int[] old = mesh.triangles();
        double[] xyz = Arrays.copyOf(mesh.xyz(), mesh.xyz().length + 3 * old.length);
        int[] triangles = new int[4 * old.length];
        Map<Long, Integer> middles = new HashMap<>();
        int[] m = new int[3];
        int n = 0;
        for (int t = 0; t < old.length; t += 3) {
            for (int k = 0; k < 3; k++) {
                int a = old[t + k];
                int b = old[t + (k + 1) % 3];
                m[k] = middles.computeIfAbsent((long) Math.min(a, b) << 32 | Math.max(a, b),
                        edge -> mesh.vertexCount() + middles.size());
                for (int axis = 0; axis < 3; axis++) {
                    xyz[3 * m[k] + axis] = (xyz[3 * a + axis] + xyz[3 * b + axis]) / 2;
                }
            }
            n = put(triangles, n, old[t], m[0], m[2]);
            n = put(triangles, n, m[0], old[t + 1], m[1]);
            n = put(triangles, n, m[2], m[1], old[t + 2]);
            n = put(triangles, n, m[0], m[1], m[2]);
        }
        return new TriangleMesh(Arrays.copyOf(xyz, 3 * (mesh.vertexCount() + middles.size())), triangles);
    }

    /** The mesh with every vertex moved. */
    public static TriangleMesh bent(TriangleMesh flat, UnaryOperator<Vector3d> bend) {
        double[] xyz = flat.xyz().clone();
        for (int v = 0; v < flat.vertexCount(); v++) {
            Vector3d p = bend.apply(flat.vertex(v));
            xyz[3 * v] = p.x;
            xyz[3 * v + 1] = p.y;
            xyz[3 * v + 2] = p.z;
        }
        return new TriangleMesh(xyz, flat.triangles());
    }

    /** A sheet, the same sheet moved, turned over, and a rim of two triangles an edge from one to the other. */
    public static TriangleMesh shell(TriangleMesh outer, TriangleMesh inner) {
        int[] outline = outline(outer);
        int n = outer.vertexCount();
        int[] inside = inner.flipped().triangles();
        int[] triangles = Arrays.copyOf(outer.triangles(), 2 * inside.length + 6 * outline.length);
        for (int i = 0; i < inside.length; i++) {
            triangles[inside.length + i] = n + inside[i];
        }
        int at = 2 * inside.length;
        for (int i = 0; i < outline.length; i++) {
            int a = outline[i];
            int b = outline[(i + 1) % outline.length];
            at = put(triangles, at, b, a, n + a);
            at = put(triangles, at, b, n + a, n + b);
        }
        double[] xyz = Arrays.copyOf(outer.xyz(), 6 * n);
        System.arraycopy(inner.xyz(), 0, xyz, 3 * n, 3 * n);
        return new TriangleMesh(xyz, triangles);
    }

    /** Vertices of a sheet's one boundary, the sheet on the left. */
    public static int[] outline(TriangleMesh sheet) {
        EdgeTopology topology = EdgeTopology.of(sheet);
        return Arrays.stream(topology.boundaryLoops().get(0)).map(topology::from).toArray();
    }
}
