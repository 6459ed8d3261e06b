package layupmold.geometry.offset.repair;

import java.util.function.IntPredicate;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/** Finds triangles that leave the offset surface between or at their corners. */
final class OffTarget {

    private static final int GRAIN = 1 << 10;
    /** Barycentric weights. */
    private static final double[][] LOOKED_AT = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0.5, 0.5, 0}, {0, 0.5, 0.5},
        {0.5, 0, 0.5}, {1 / 3.0, 1 / 3.0, 1 / 3.0}};

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
        double[] xyz = mesh.xyz();
        int a = 3 * mesh.triangles()[3 * t];
        int b = 3 * mesh.triangles()[3 * t + 1];
        int c = 3 * mesh.triangles()[3 * t + 2];
        for (double[] w : LOOKED_AT) {
            field.at(w[0] * xyz[a] + w[1] * xyz[b] + w[2] * xyz[c],
                    w[0] * xyz[a + 1] + w[1] * xyz[b + 1] + w[2] * xyz[c + 1],
                    w[0] * xyz[a + 2] + w[1] * xyz[b + 2] + w[2] * xyz[c + 2], sample);
            if (Math.abs(sample.miss()) > toleranceMm && !sample.beyondBoundary) {
                return true;
            }
        }
        return false;
    }
}
