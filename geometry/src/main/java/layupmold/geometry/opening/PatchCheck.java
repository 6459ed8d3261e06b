package layupmold.geometry.opening;

import java.util.Arrays;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Holds a finished patch against the face: no triangle without area, no fold, no crossing of the patch with itself or
 * with the face. Crossings are decided exactly; folds by an angle.
 */
final class PatchCheck {

    /** Neighbours in the patch may turn by less than 120°, the patch against the face by less than about 155°. */
    private static final double LEAST_COSINE_INSIDE = -0.5;
    private static final double LEAST_COSINE_AT_LOOP = -0.9;
    /** Triangles with less area than this share of their longest side's square have no normal worth testing. */
    private static final double SLIVER = 0.01;

    private PatchCheck() {
    }

    /** True if nothing is wrong. */
    static boolean passes(PatchMesh patch, TriangleMesh face, OpeningLoop loop) {
        return isUnfolded(patch, loop) && isFree(patch.toMesh(), face, loop);
    }

    private static boolean isUnfolded(PatchMesh patch, OpeningLoop loop) {
        double[] normals = new double[3 * patch.triangleCount];
        boolean[] sliver = new boolean[patch.triangleCount];
        for (int t = 0; t < normals.length; t += 3) {
            int a = patch.origin[t];
            int b = patch.origin[t + 1];
            int c = patch.origin[t + 2];
            Triangles.normal(patch.xyz, a, b, c, normals, t);
            double twiceArea = Triangles.length(normals, t);
            if (!(twiceArea > 0)) {
                return false;
            }
            double side = Math.max(Triangles.distance(patch.xyz, a, b),
                    Math.max(Triangles.distance(patch.xyz, b, c), Triangles.distance(patch.xyz, c, a)));
            sliver[t / 3] = twiceArea < 2 * SLIVER * side * side;
        }
        for (int h = 0; h < normals.length; h++) {
            int g = patch.twin[h];
            if (sliver[h / 3] || g >= 0 && sliver[g / 3]) {
                continue;
            }
            int t = h - h % 3;
            double cosine = g < 0 ? Triangles.cosine(normals, t, loop.faceNormals, 3 * patch.origin[h])
                    : Triangles.cosine(normals, t, normals, g - g % 3);
            if (cosine < (g < 0 ? LEAST_COSINE_AT_LOOP : LEAST_COSINE_INSIDE)) {
                return false;
            }
        }
        return true;
    }

    /** True if a patch, whose first vertices are the loop's corners, crosses neither itself nor the face. */
    static boolean isFree(TriangleMesh patch, TriangleMesh face, OpeningLoop loop) {
        int[] near = faceTrianglesNear(patch, face);
        int[] faceVertices = Arrays.stream(near).flatMap(t -> Arrays.stream(face.triangles(), 3 * t, 3 * t + 3))
                .sorted().distinct().toArray();
        int patchVertices = patch.vertexCount();
        double[] xyz = Arrays.copyOf(patch.xyz(), 3 * (patchVertices + faceVertices.length));
        int[] local = new int[faceVertices.length];
        for (int i = 0; i < faceVertices.length; i++) {
            local[i] = patchVertices + i;
            System.arraycopy(face.xyz(), 3 * faceVertices[i], xyz, 3 * local[i], 3);
        }
        for (int i = 0; i < loop.cornerCount(); i++) {
            int at = Arrays.binarySearch(faceVertices, loop.vertices[i]);
            if (at >= 0) {
                local[at] = i;
            }
        }
        int[] triangles = new int[3 * (near.length + patch.triangleCount())];
        int size = 0;
        for (int t : near) {
            for (int i = 0; i < 3; i++) {
                triangles[size++] = local[Arrays.binarySearch(faceVertices, face.triangles()[3 * t + i])];
            }
        }
        System.arraycopy(patch.triangles(), 0, triangles, size, patch.triangles().length);
        TriangleMesh both = new TriangleMesh(xyz, triangles);
        return SelfIntersections.findInvolving(both, near.length, 1).length == 0;
    }

    /** Triangles of the face whose boxes overlap that of the patch. */
    static int[] faceTrianglesNear(TriangleMesh patch, TriangleMesh face) {
        double[] box = patch.bounds();
        double[] xyz = face.xyz();
        int[] triangles = face.triangles();
        int[] near = new int[64];
        int size = 0;
        for (int t = 0; t < triangles.length; t += 3) {
            int a = 3 * triangles[t];
            int b = 3 * triangles[t + 1];
            int c = 3 * triangles[t + 2];
            if (overlaps(xyz, a, b, c, box, 0) && overlaps(xyz, a, b, c, box, 1) && overlaps(xyz, a, b, c, box, 2)) {
                if (size == near.length) {
                    near = Arrays.copyOf(near, 2 * size);
                }
                near[size++] = t / 3;
            }
        }
        return Arrays.copyOf(near, size);
    }

    private static boolean overlaps(double[] xyz, int a, int b, int c, double[] box, int k) {
        double p = xyz[a + k];
        double q = xyz[b + k];
        double r = xyz[c + k];
        return (p <= box[3 + k] || q <= box[3 + k] || r <= box[3 + k]) && (p >= box[k] || q >= box[k] || r >= box[k]);
    }
}
