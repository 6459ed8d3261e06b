package layupmold.geometry.offset.repair;

import java.util.function.IntPredicate;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;
import org.joml.Vector3d;

/** Finds triangles that leave the offset surface between or at their corners. */
final class OffTarget {

    private static final int GRAIN = 1 << 10;
    /** Barycentric weights. */
    private static final double[][] LOOKED_AT = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0.5, 0.5, 0}, {0, 0.5, 0.5},
        {0.5, 0, 0.5}, {1 / 3.0, 1 / 3.0, 1 / 3.0}};

    /** Where the offset bends below a triangle, it is looked at closer. */
    private static final double[][] LOOKED_AT_CLOSER = {{0.75, 0.25, 0}, {0.25, 0.75, 0}, {0, 0.75, 0.25},
        {0, 0.25, 0.75}, {0.25, 0, 0.75}, {0.75, 0, 0.25}, {0.6, 0.2, 0.2}, {0.2, 0.6, 0.2}, {0.2, 0.2, 0.6}};
    /** Below this cosine between a triangle's normal and the field's gradient it bends. */
    private static final double FLAT_COSINE = 0.99;

    private OffTarget() {
    }

    /** @return for each triangle of those asked for whether it misses by more than {@code toleranceMm} */
    static boolean[] triangles(TriangleMesh mesh, IntPredicate asked, OffsetField field, double toleranceMm) {
        boolean[] off = new boolean[mesh.triangleCount()];
        Parallel.forRanges(off.length, GRAIN, (chunk, from, to) -> {
            OffsetField.Sample sample = new OffsetField.Sample();
            for (int t = from; t < to; t++) {
                off[t] = asked.test(t) && misses(mesh, t, field, toleranceMm, sample);
            }
        });
        return off;
    }

    /**
     * @param suspect vertices whose triangles are looked at
     * @return for each vertex whether a triangle there misses by more than {@code toleranceMm}
     */
    static boolean[] vertices(TriangleMesh mesh, boolean[] suspect, OffsetField field, double toleranceMm) {
        int[] corners = mesh.triangles();
        boolean[] off = triangles(mesh, t -> suspect[corners[3 * t]] || suspect[corners[3 * t + 1]]
                || suspect[corners[3 * t + 2]], field, toleranceMm);
        boolean[] vertices = new boolean[mesh.vertexCount()];
        for (int i = 0; i < corners.length; i++) {
            vertices[corners[i]] |= off[i / 3];
        }
        return vertices;
    }

    private static boolean misses(
            TriangleMesh mesh, int t, OffsetField field, double toleranceMm, OffsetField.Sample sample) {
        Vector3d n = mesh.areaNormal(t).normalize();
        double least = 1;
        for (double[] w : LOOKED_AT) {
            if (misses(mesh, t, w, field, toleranceMm, sample)) {
                return true;
            }
            least = Math.min(least, n.x * sample.nx + n.y * sample.ny + n.z * sample.nz);
        }
        for (int i = 0; least < FLAT_COSINE && i < LOOKED_AT_CLOSER.length; i++) {
            if (misses(mesh, t, LOOKED_AT_CLOSER[i], field, toleranceMm, sample)) {
                return true;
            }
        }
        return false;
    }

    private static boolean misses(TriangleMesh mesh, int t, double[] w, OffsetField field, double toleranceMm,
            OffsetField.Sample sample) {
        double[] xyz = mesh.xyz();
        int a = 3 * mesh.triangles()[3 * t];
        int b = 3 * mesh.triangles()[3 * t + 1];
        int c = 3 * mesh.triangles()[3 * t + 2];
        field.at(w[0] * xyz[a] + w[1] * xyz[b] + w[2] * xyz[c],
                w[0] * xyz[a + 1] + w[1] * xyz[b + 1] + w[2] * xyz[c + 1],
                w[0] * xyz[a + 2] + w[1] * xyz[b + 2] + w[2] * xyz[c + 2], sample);
        return Math.abs(sample.miss()) > toleranceMm && !sample.beyondBoundary;
    }
}
