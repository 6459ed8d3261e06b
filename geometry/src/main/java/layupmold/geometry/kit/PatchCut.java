package layupmold.geometry.kit;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/** Cuts a square piece out of a sheet by four upright planes, splitting triangles so that its edges are straight. */
final class PatchCut {

    /** Vertices this near to a plane count as on its inner side, so that no slivers are cut off. */
    private static final double SNAP_MM = 0.02;

    private PatchCut() {
    }

    /**
     * @param centre of the square in plan
     * @return the connected piece nearest to {@code centre}; without triangles if there is none
     */
    static TriangleMesh square(TriangleMesh sheet, Vector3d centre, double sizeMm) {
        double h = sizeMm / 2;
        TriangleMesh mesh = keep(sheet, 1, 0, centre.x + h);
        mesh = keep(mesh, -1, 0, h - centre.x);
        mesh = keep(mesh, 0, 1, centre.y + h);
        mesh = keep(mesh, 0, -1, h - centre.y);
        return nearestPiece(mesh, centre);
    }

    /** What lies where nx·x + ny·y ≤ limit. O(n). */
    private static TriangleMesh keep(TriangleMesh mesh, double nx, double ny, double limit) {
        Clip clip = new Clip(mesh, nx, ny, limit);
        for (int t = 0; t < mesh.triangleCount(); t++) {
            clip.add(t);
        }
        return clip.result();
    }

    private static final class Clip {
        private final TriangleMesh mesh;
        private final double[] beyond;
        private final Map<Long, Integer> cuts = new HashMap<>();
        private double[] xyz;
        private int vertices;
        private int[] triangles;
        private int size;

        Clip(TriangleMesh mesh, double nx, double ny, double limit) {
            this.mesh = mesh;
            this.vertices = mesh.vertexCount();
            this.xyz = mesh.xyz().clone();
            this.triangles = new int[mesh.triangles().length + 64];
            this.beyond = new double[vertices];
            for (int v = 0; v < vertices; v++) {
                double s = nx * xyz[3 * v] + ny * xyz[3 * v + 1] - limit;
                beyond[v] = Math.abs(s) < SNAP_MM ? 0 : s;
            }
        }

        void add(int t) {
            int[] ring = new int[4];
            int corners = 0;
            for (int k = 0; k < 3; k++) {
                int a = mesh.triangles()[3 * t + k];
                int b = mesh.triangles()[3 * t + (k + 1) % 3];
                if (beyond[a] <= 0) {
                    ring[corners++] = a;
                }
                if (beyond[a] < 0 && beyond[b] > 0 || beyond[a] > 0 && beyond[b] < 0) {
                    ring[corners++] = cut(Math.min(a, b), Math.max(a, b));
                }
            }
            for (int k = 2; k < corners; k++) {
                put(ring[0], ring[k - 1], ring[k]);
            }
        }

        private int cut(int a, int b) {
            return cuts.computeIfAbsent((long) a << 32 | b, key -> {
                if (3 * vertices + 3 > xyz.length) {
                    xyz = Arrays.copyOf(xyz, 2 * xyz.length);
                }
                double s = beyond[a] / (beyond[a] - beyond[b]);
                for (int k = 0; k < 3; k++) {
                    xyz[3 * vertices + k] = xyz[3 * a + k] + s * (xyz[3 * b + k] - xyz[3 * a + k]);
                }
                return vertices++;
            });
        }

        private void put(int a, int b, int c) {
            if (size + 3 > triangles.length) {
                triangles = Arrays.copyOf(triangles, 2 * triangles.length);
            }
            triangles[size++] = a;
            triangles[size++] = b;
            triangles[size++] = c;
        }

        TriangleMesh result() {
            return compact(xyz, Arrays.copyOf(triangles, size));
        }
    }

    private static TriangleMesh nearestPiece(TriangleMesh mesh, Vector3d centre) {
        int n = mesh.triangleCount();
        if (n == 0) {
            return mesh;
        }
        int start = 0;
        for (int t = 1; t < n; t++) {
            if (mesh.centroid(t).distanceSquared(centre) < mesh.centroid(start).distanceSquared(centre)) {
                start = t;
            }
        }
        EdgeTopology topology = EdgeTopology.of(mesh);
        boolean[] seen = new boolean[n];
        int[] stack = new int[n];
        int[] kept = new int[3 * n];
        int size = 0;
        int top = 0;
        stack[top++] = start;
        seen[start] = true;
        while (top > 0) {
            int t = stack[--top];
            System.arraycopy(mesh.triangles(), 3 * t, kept, size, 3);
            size += 3;
            for (int h = 3 * t; h < 3 * t + 3; h++) {
                int twin = topology.twin(h);
                if (twin >= 0 && !seen[twin / 3]) {
                    seen[twin / 3] = true;
                    stack[top++] = twin / 3;
                }
            }
        }
        return compact(mesh.xyz(), Arrays.copyOf(kept, size));
    }

    /** Without vertices that no triangle uses. */
    private static TriangleMesh compact(double[] xyz, int[] triangles) {
        int[] newIndex = new int[xyz.length / 3];
        Arrays.fill(newIndex, -1);
        double[] used = new double[xyz.length];
        int[] renamed = new int[triangles.length];
        int count = 0;
        for (int k = 0; k < triangles.length; k++) {
            int v = triangles[k];
            if (newIndex[v] < 0) {
                System.arraycopy(xyz, 3 * v, used, 3 * count, 3);
                newIndex[v] = count++;
            }
            renamed[k] = newIndex[v];
        }
        return new TriangleMesh(Arrays.copyOf(used, 3 * count), renamed);
    }
}
