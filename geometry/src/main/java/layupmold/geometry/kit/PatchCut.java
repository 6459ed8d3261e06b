package layupmold.geometry.kit;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.LevelClip;
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
        double[] beyond = new double[mesh.vertexCount()];
        for (int v = 0; v < beyond.length; v++) {
            double s = nx * mesh.xyz()[3 * v] + ny * mesh.xyz()[3 * v + 1] - limit;
            beyond[v] = Math.abs(s) < SNAP_MM ? 0 : s;
        }
        return LevelClip.atMostZero(mesh, beyond).mesh();
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
        return LevelClip.compact(mesh.xyz(), Arrays.copyOf(kept, size));
    }
}
