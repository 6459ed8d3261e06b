package layupmold.geometry.opening;

import java.util.Arrays;
import java.util.TreeSet;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.mesh.TriangleMesh;

/** Finds caps that cross other caps. */
final class CapCrossings {

    private CapCrossings() {
    }

    /** Indices of caps that cross another, ascending; only pairs whose boxes overlap are looked at. */
    static int[] find(CappedFace capped) {
        int n = capped.caps().size();
        TriangleMesh[] meshes = new TriangleMesh[n];
        double[][] boxes = new double[n][];
        for (int i = 0; i < n; i++) {
            Cap cap = capped.caps().get(i);
            meshes[i] = new TriangleMesh(capped.mesh().xyz(), Arrays.copyOfRange(capped.mesh().triangles(),
                    3 * cap.firstTriangle(), 3 * (cap.firstTriangle() + cap.triangleCount())));
            boxes[i] = box(meshes[i]);
        }
        TreeSet<Integer> crossing = new TreeSet<>();
        for (int i = 0; i < n; i++) {
            for (int j = i + 1; j < n; j++) {
                if (overlap(boxes[i], boxes[j]) && cross(meshes[i], meshes[j])) {
                    crossing.add(i);
                    crossing.add(j);
                }
            }
        }
        return crossing.stream().mapToInt(Integer::intValue).toArray();
    }

    private static boolean cross(TriangleMesh a, TriangleMesh b) {
        int[] triangles = Arrays.copyOf(a.triangles(), a.triangles().length + b.triangles().length);
        System.arraycopy(b.triangles(), 0, triangles, a.triangles().length, b.triangles().length);
        TriangleMesh both = new TriangleMesh(a.xyz(), triangles);
        return SelfIntersections.findInvolving(both, a.triangleCount(), 1).length > 0;
    }

    private static double[] box(TriangleMesh mesh) {
        double[] box = new double[6];
        Arrays.fill(box, 0, 3, Double.POSITIVE_INFINITY);
        Arrays.fill(box, 3, 6, Double.NEGATIVE_INFINITY);
        for (int v : mesh.triangles()) {
            for (int k = 0; k < 3; k++) {
                box[k] = Math.min(box[k], mesh.xyz()[3 * v + k]);
                box[3 + k] = Math.max(box[3 + k], mesh.xyz()[3 * v + k]);
            }
        }
        return box;
    }

    private static boolean overlap(double[] a, double[] b) {
        for (int k = 0; k < 3; k++) {
            if (a[k] > b[3 + k] || b[k] > a[3 + k]) {
                return false;
            }
        }
        return true;
    }
}
