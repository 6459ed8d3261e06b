package layupmold.geometry.opening;

import java.util.Arrays;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.TriangleMesh;

/** What of the face a triangle between corners of a loop might meet. */
final class FaceBeside {

    private final OpeningLoop loop;
    private final TriangleMesh near;
    private final TriangleBvh bvh;

    /** O(n + k log k) for k triangles of the face in the loop's box. */
    FaceBeside(TriangleMesh face, OpeningLoop loop) {
        this.loop = loop;
        int[] inBox = PatchCheck.faceTrianglesNear(new TriangleMesh(loop.xyz, new int[0]), face);
        this.near = new TriangleMesh(face.xyz(), Arrays.stream(inBox)
                .flatMap(t -> Arrays.stream(face.triangles(), 3 * t, 3 * t + 3)).toArray());
        this.bvh = TriangleBvh.of(near);
    }

    /** Whether the triangle of three of the loop's corners meets the face but where they share vertices. Exact. */
    boolean isMet(int i, int j, int k) {
        int a = loop.vertices[i];
        int b = loop.vertices[j];
        int c = loop.vertices[k];
        double[] p = near.xyz();
        int[] corners = near.triangles();
        boolean[] met = new boolean[1];
        bvh.overlapping(p, 3 * a, 3 * b, 3 * c, t -> {
            met[0] = SelfIntersections.meet(p, a, b, c, corners[3 * t], corners[3 * t + 1], corners[3 * t + 2]);
            return !met[0];
        });
        return met[0];
    }
}
