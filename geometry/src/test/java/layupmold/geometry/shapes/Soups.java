package layupmold.geometry.shapes;

import java.util.Arrays;
import java.util.SplittableRandom;
import layupmold.geometry.mesh.TriangleMesh;

/** What happens to meshes on their way through files: torn into triangles, shuffled, joined with others. */
public final class Soups {

    private Soups() {
    }

    /** An axis-parallel box with its least corner at the origin; 12 triangles facing outward. */
    public static TriangleMesh box(double x, double y, double z) {
        double[] xyz = new double[24];
        for (int v = 0; v < 8; v++) {
            xyz[3 * v] = (v & 1) * x;
            xyz[3 * v + 1] = (v >> 1 & 1) * y;
            xyz[3 * v + 2] = (v >> 2) * z;
        }
        return new TriangleMesh(xyz, new int[] {0, 2, 3, 0, 3, 1, 4, 5, 7, 4, 7, 6, 0, 1, 5, 0, 5, 4, 2, 6, 7, 2, 7, 3,
            0, 4, 6, 0, 6, 2, 1, 3, 7, 1, 7, 5});
    }

    /** Every triangle with three vertices of its own, as an STL file has them. */
    public static TriangleMesh unwelded(TriangleMesh mesh) {
        double[] xyz = new double[9 * mesh.triangleCount()];
        int[] triangles = new int[3 * mesh.triangleCount()];
        for (int i = 0; i < triangles.length; i++) {
            System.arraycopy(mesh.xyz(), 3 * mesh.triangles()[i], xyz, 3 * i, 3);
            triangles[i] = i;
        }
        return new TriangleMesh(xyz, triangles);
    }

    /** Both meshes in one; vertices are not shared. */
    public static TriangleMesh union(TriangleMesh a, TriangleMesh b) {
        double[] xyz = Arrays.copyOf(a.xyz(), a.xyz().length + b.xyz().length);
        System.arraycopy(b.xyz(), 0, xyz, a.xyz().length, b.xyz().length);
        int[] triangles = Arrays.copyOf(a.triangles(), a.triangles().length + b.triangles().length);
        for (int i = 0; i < b.triangles().length; i++) {
            triangles[a.triangles().length + i] = a.vertexCount() + b.triangles()[i];
        }
        return new TriangleMesh(xyz, triangles);
    }

    public static TriangleMesh moved(TriangleMesh mesh, double dx, double dy, double dz) {
        double[] xyz = mesh.xyz().clone();
        for (int i = 0; i < xyz.length; i += 3) {
            xyz[i] += dx;
            xyz[i + 1] += dy;
            xyz[i + 2] += dz;
        }
        return new TriangleMesh(xyz, mesh.triangles());
    }

    /** The same triangles in another order, with their corners rotated, and that share of them turned around. */
    public static TriangleMesh scrambled(TriangleMesh mesh, double turnedShare, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        int n = mesh.triangleCount();
        int[] order = new int[n];
        for (int i = 0; i < n; i++) {
            int j = random.nextInt(i + 1);
            order[i] = order[j];
            order[j] = i;
        }
        int[] triangles = new int[3 * n];
        for (int i = 0; i < n; i++) {
            int spin = random.nextInt(3);
            boolean turn = random.nextDouble() < turnedShare;
            for (int k = 0; k < 3; k++) {
                triangles[3 * i + (turn ? 2 - k : k)] = mesh.triangles()[3 * order[i] + (k + spin) % 3];
            }
        }
        return new TriangleMesh(mesh.xyz(), triangles);
    }
}
