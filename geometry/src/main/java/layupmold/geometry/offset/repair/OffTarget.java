package layupmold.geometry.offset.repair;

import java.util.function.IntPredicate;
import java.util.function.IntToDoubleFunction;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;
import layupmold.geometry.simplify.Target;
import layupmold.geometry.simplify.TriangleMiss;

/** Finds triangles that leave the offset surface between or at their corners. */
final class OffTarget {

    private static final int GRAIN = 1 << 6;

    private OffTarget() {
    }

    /** @return for each triangle of those asked for whether it misses by more than it may */
    static boolean[] triangles(TriangleMesh mesh, IntPredicate asked, OffsetField field,
            IntToDoubleFunction mayMissMm) {
        boolean[] off = new boolean[mesh.triangleCount()];
        Parallel.forRanges(off.length, GRAIN, (chunk, from, to) -> {
            Target target = field.target();
            TriangleMiss between = TriangleMiss.thorough(target);
            for (int t = from; t < to; t++) {
                if (asked.test(t)) {
                    double most = mayMissMm.applyAsDouble(t);
                    int[] corners = mesh.triangles();
                    off[t] = missesAtCorner(mesh, t, target, most) || most < between.worst(
                            mesh.xyz(), corners[3 * t], corners[3 * t + 1], corners[3 * t + 2], most);
                }
            }
        });
        return off;
    }

    /**
     * @param suspect vertices whose triangles are looked at
     * @return for each given vertex whether a triangle there misses by more than {@code toleranceMm}, weighted by its region
     */
    static boolean[] vertices(LabelledSheet sheet, boolean[] suspect, OffsetField field, double toleranceMm) {
        int[] corners = sheet.mesh().triangles();
        // Triangles between new vertices only say nothing about given ones.
        return corners(sheet.mesh(), triangles(sheet.mesh(), t -> any(corners, t, v -> suspect[v])
                && any(corners, t, v -> sheet.given()[v] >= 0), field, t -> toleranceMm / Exactness.weight(sheet.labels()[t])));
    }

    private static boolean any(int[] corners, int t, IntPredicate asked) {
        return asked.test(corners[3 * t]) || asked.test(corners[3 * t + 1]) || asked.test(corners[3 * t + 2]);
    }

    /** @return for each vertex whether a triangle there is one of the chosen */
    static boolean[] corners(TriangleMesh mesh, boolean[] chosen) {
        int[] corners = mesh.triangles();
        boolean[] vertices = new boolean[mesh.vertexCount()];
        for (int i = 0; i < corners.length; i++) {
            vertices[corners[i]] |= chosen[i / 3];
        }
        return vertices;
    }

    private static boolean missesAtCorner(TriangleMesh mesh, int t, Target target, double toleranceMm) {
        double[] xyz = mesh.xyz();
        for (int i = 3 * t; i < 3 * t + 3; i++) {
            int v = 3 * mesh.triangles()[i];
            if (Math.abs(target.miss(xyz[v], xyz[v + 1], xyz[v + 2])) > toleranceMm) {
                return true;
            }
        }
        return false;
    }
}
