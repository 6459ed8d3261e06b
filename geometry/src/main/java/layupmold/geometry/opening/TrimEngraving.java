package layupmold.geometry.opening;

import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;

/** Sinks the trim rings of a capped face into grooves. */
public final class TrimEngraving {

    /** A groove's walls turn by 34° on a flat cap; while none turns by more than 66°, none folds onto its neighbours. */
    private static final double SAFE_TURN_COSINE = 0.4;
    private static final double FLUSH_COSINE = 0.85;
    private static final int SPREADING_PASSES = 2;
    private static final int EVENING_PASSES = 4;
    private static final double LEAST_DISTANCE_MM = 1e-9;

    private TrimEngraving() {
    }

    /**
     * Moves every vertex of a trim ring along the cap's normal around there by the depth times
     * {@link CappedFace#trimProfile}; nothing else moves. O(n).
     *
     * @param depthMm signed: positive moves along the outward normal, into the body of a female tool. Up to the depth
     *     of the marks the face was capped with, nothing crosses
     * @return a mesh with the vertices and triangles of {@code capped.mesh()}; that mesh itself without rings or depth
     */
    public static TriangleMesh engrave(CappedFace capped, double depthMm) {
        if (depthMm == 0 || capped.caps().stream().allMatch(cap -> cap.trimRings().isEmpty())) {
            return capped.mesh();
        }
        return engrave(capped.mesh(), 3 * capped.caps().get(0).firstTriangle(), capped.trimProfile(), depthMm);
    }

    /**
     * True if a groove leaves a patch clear of itself and of the face: either because no triangle turns far and the
     * face lies flush, or by the exact test.
     *
     * @param profile depth by vertex, 0 to 1
     * @param depthMm of profile 1, signed: positive along the patch's normal
     */
    static boolean fits(TriangleMesh patch, double[] profile, double depthMm, TriangleMesh face, OpeningLoop loop) {
        TriangleMesh engraved = engrave(patch, 0, profile, depthMm);
        boolean safe = leastRimCosine(patch, loop) >= FLUSH_COSINE
                && leastTurnCosine(patch, engraved) >= SAFE_TURN_COSINE;
        return safe || PatchCheck.isFree(engraved, face, loop);
    }

    /** How far the face turns from the patch at the loop, at most. */
    private static double leastRimCosine(TriangleMesh patch, OpeningLoop loop) {
        double[] normal = new double[3];
        double least = 1;
        int[] triangles = patch.triangles();
        for (int t = 0; t < triangles.length; t += 3) {
            for (int i = 0; i < 3; i++) {
                int a = triangles[t + i];
                int b = triangles[t + (i + 1) % 3];
                if (a < loop.cornerCount() && b == (a + 1) % loop.cornerCount()) {
                    Triangles.normal(patch.xyz(), a, b, triangles[t + (i + 2) % 3], normal, 0);
                    least = Math.min(least, Triangles.cosine(normal, 0, loop.faceNormals, 3 * a));
                }
            }
        }
        return least;
    }

    private static double leastTurnCosine(TriangleMesh before, TriangleMesh after) {
        double[] normals = new double[6];
        double least = 1;
        int[] triangles = before.triangles();
        for (int t = 0; t < triangles.length; t += 3) {
            Triangles.normal(before.xyz(), triangles[t], triangles[t + 1], triangles[t + 2], normals, 0);
            Triangles.normal(after.xyz(), triangles[t], triangles[t + 1], triangles[t + 2], normals, 3);
            least = Math.min(least, Triangles.cosine(normals, 0, normals, 3));
        }
        return least;
    }

    /** Normals are those of the triangles whose first corner is at {@code from} or later, evened out. */
    private static TriangleMesh engrave(TriangleMesh mesh, int from, double[] profile, double depthMm) {
        double[] xyz = mesh.xyz();
        int[] triangles = mesh.triangles();
        double[] normals = normals(xyz, triangles, from);
        double[] engraved = Arrays.copyOf(xyz, xyz.length);
        for (int v = 0; v < profile.length; v++) {
            double length = Triangles.length(normals, 3 * v);
            if (profile[v] > 0 && length > 0) {
                for (int k = 0; k < 3; k++) {
                    engraved[3 * v + k] += depthMm * profile[v] * normals[3 * v + k] / length;
                }
            }
        }
        return new TriangleMesh(engraved, triangles);
    }

    /**
     * Directions along which the vertices sink. The mean of a vertex's own triangles may point anywhere where only
     * slivers meet, and vertices micrometres apart must sink side by side, or they pass each other.
     */
    private static double[] normals(double[] xyz, int[] triangles, int from) {
        double[] normals = new double[xyz.length];
        double[] sum = new double[3];
        for (int t = from; t < triangles.length; t += 3) {
            Triangles.normal(xyz, triangles[t], triangles[t + 1], triangles[t + 2], sum, 0);
            addToCorners(sum, triangles, t, normals);
        }
        for (int pass = 0; pass < SPREADING_PASSES; pass++) {
            double[] spread = new double[normals.length];
            for (int t = from; t < triangles.length; t += 3) {
                Arrays.fill(sum, 0);
                for (int i = t; i < t + 3; i++) {
                    PatchLaplacian.addScaled(sum, 0, 1, normals, 3 * triangles[i]);
                }
                addToCorners(sum, triangles, t, spread);
            }
            normals = spread;
        }
        for (int pass = 0; pass < EVENING_PASSES; pass++) {
            even(xyz, triangles, from, normals);
        }
        return normals;
    }

    private static void addToCorners(double[] sum, int[] triangles, int t, double[] normals) {
        for (int i = t; i < t + 3; i++) {
            PatchLaplacian.addScaled(normals, 3 * triangles[i], 1, sum, 0);
        }
    }

    /** Makes unit vectors of normals and draws each as much again towards those around it, the more the nearer. */
    private static void even(double[] xyz, int[] triangles, int from, double[] normals) {
        double[] around = new double[normals.length];
        for (int v = 0; v < normals.length; v += 3) {
            double length = Triangles.length(normals, v);
            for (int k = v; k < v + 3 && length > 0; k++) {
                normals[k] /= length;
            }
        }
        for (int t = from; t < triangles.length; t += 3) {
            for (int i = 0; i < 3; i++) {
                int a = triangles[t + i];
                int b = triangles[t + (i + 1) % 3];
                double weight = 1 / Math.max(Triangles.distance(xyz, a, b), LEAST_DISTANCE_MM);
                PatchLaplacian.addScaled(around, 3 * a, weight, normals, 3 * b);
                PatchLaplacian.addScaled(around, 3 * b, weight, normals, 3 * a);
            }
        }
        for (int v = 0; v < normals.length; v += 3) {
            double length = Triangles.length(around, v);
            for (int k = v; k < v + 3 && length > 0; k++) {
                normals[k] += around[k] / length;
            }
        }
    }
}
