package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.IntArrayList;
import java.util.Arrays;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.VertexTriangles;
import layupmold.geometry.parallel.Parallel;

/** Finds where moving vertices did not give the offset surface: folds, crossings, and vertices off their distance. */
final class BadTriangles {

    private static final int GRAIN = 1 << 11;
    private static final int PAIR_LIMIT = 1 << 20;

    private final TriangleMesh moved;
    private final int[] triangles;
    private final boolean[] turned;
    private final int[] pairs;
    private final OffsetField field;
    private final double toleranceMm;

    private BadTriangles(
            TriangleMesh moved, int[] triangles, boolean[] turned, int[] pairs, OffsetField field, double toleranceMm) {
        this.moved = moved;
        this.triangles = triangles;
        this.turned = turned;
        this.pairs = pairs;
        this.field = field;
        this.toleranceMm = toleranceMm;
    }

    /**
     * @param sheet the face with its skirt
     * @param moved its vertices after the offset
     * @param toleranceMm how far a vertex may be off
     */
    static BadTriangles find(SkirtedSheet sheet, double[] moved, OffsetField field, double toleranceMm) {
        int n = sheet.faceTriangles();
        TriangleMesh face = new TriangleMesh(moved, Arrays.copyOf(sheet.mesh().triangles(), 3 * n));
        int[] pairs = SelfIntersections.find(face, TriangleBvh.of(face), PAIR_LIMIT);
        boolean[] bad = new boolean[n];
        for (int t : pairs) {
            bad[t] = true;
        }
        boolean[] turned = new boolean[n];
        for (int t = 0; t < n; t++) {
            turned[t] = face.areaNormal(t).dot(sheet.mesh().areaNormal(t)) <= 0;
            bad[t] |= turned[t];
        }
        boolean[] off = offTarget(sheet, moved, field, toleranceMm);
        VertexTriangles around = VertexTriangles.of(face);
        for (int v = 0; v < off.length; v++) {
            if (off[v]) {
                for (int i = around.start(v); i < around.start(v + 1); i++) {
                    bad[around.triangle(i)] = true;
                }
            }
        }
        IntArrayList list = new IntArrayList();
        for (int t = 0; t < n; t++) {
            if (bad[t]) {
                list.add(t);
            }
        }
        return new BadTriangles(face, list.toArray(), turned, pairs, field, toleranceMm);
    }

    boolean isEmpty() {
        return triangles.length == 0;
    }

    int first() {
        return triangles[0];
    }

    /**
     * Covers what has to be rebuilt: turned triangles, places off their distance, and the common bounds of triangles
     * that cross.
     *
     * @return false if that takes more than {@code budget} cells
     */
    boolean cover(RepairRegion region, int reach, int budget) {
        OffsetField.Sample sample = new OffsetField.Sample();
        for (int t : triangles) {
            region.cover(moved, t, reach, (x, y, z) -> {
                if (turned[t]) {
                    return true;
                }
                field.at(x, y, z, sample);
                return Math.abs(sample.value) > toleranceMm;
            });
            if (region.size() > budget) {
                return false;
            }
        }
        for (int i = 0; i < pairs.length; i += 2) {
            double[] common = commonBounds(pairs[i], pairs[i + 1]);
            region.cover(moved, pairs[i], reach, (x, y, z) -> contains(common, x, y, z));
            region.cover(moved, pairs[i + 1], reach, (x, y, z) -> contains(common, x, y, z));
            if (region.size() > budget) {
                return false;
            }
        }
        return true;
    }

    private double[] commonBounds(int t, int u) {
        double[] box = new double[6];
        for (int k = 0; k < 3; k++) {
            box[k] = Math.max(extreme(t, k, -1), extreme(u, k, -1));
            box[3 + k] = Math.min(extreme(t, k, 1), extreme(u, k, 1));
        }
        return box;
    }

    private double extreme(int t, int axis, int sign) {
        double extreme = Double.NEGATIVE_INFINITY;
        for (int k = 0; k < 3; k++) {
            extreme = Math.max(extreme, sign * moved.xyz()[3 * moved.triangles()[3 * t + k] + axis]);
        }
        return sign * extreme;
    }

    /** Widened by half a millimetre: pieces are looked at by a few points only. */
    private static boolean contains(double[] box, double x, double y, double z) {
        double slack = 0.5;
        return x >= box[0] - slack && x <= box[3] + slack && y >= box[1] - slack && y <= box[4] + slack
                && z >= box[2] - slack && z <= box[5] + slack;
    }

    private static boolean[] offTarget(SkirtedSheet sheet, double[] moved, OffsetField field, double toleranceMm) {
        boolean[] off = new boolean[moved.length / 3];
        Parallel.forRanges(off.length, GRAIN, (chunk, from, to) -> {
            OffsetField.Sample sample = new OffsetField.Sample();
            for (int v = from; v < to; v++) {
                if (sheet.sides()[v] != PatchMesh.SKIRT) {
                    field.at(moved[3 * v], moved[3 * v + 1], moved[3 * v + 2], sample);
                    off[v] = Math.abs(sample.value) > toleranceMm && !sample.beyondBoundary;
                }
            }
        });
        return off;
    }
}
