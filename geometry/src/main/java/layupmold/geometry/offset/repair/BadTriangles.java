package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.IntArrayList;
import java.util.Arrays;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/** Finds where moving vertices did not give the offset surface: folds, crossings, and vertices off their distance. */
final class BadTriangles {

    private static final int GRAIN = 1 << 11;
    private static final int PAIR_LIMIT = 1 << 20;

    /** Barycentric weights. */
    private static final double[][] LOOKED_AT = {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {0.5, 0.5, 0}, {0, 0.5, 0.5},
        {0.5, 0, 0.5}, {1 / 3.0, 1 / 3.0, 1 / 3.0}};

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

    /** @param toleranceMm how far the surface may be off */
    static BadTriangles find(MovedSheet sheet, OffsetField field, double toleranceMm) {
        TriangleMesh face = sheet.face();
        int n = face.triangleCount();
        int[] pairs = SelfIntersections.find(face, TriangleBvh.of(face), PAIR_LIMIT);
        boolean[] bad = sheet.turned().clone();
        for (int t : pairs) {
            bad[t] = true;
        }
        markOffTarget(sheet, face, field, toleranceMm, bad);
        IntArrayList list = new IntArrayList();
        for (int t = 0; t < n; t++) {
            if (bad[t]) {
                list.add(t);
            }
        }
        return new BadTriangles(face, list.toArray(), sheet.turned(), pairs, field, toleranceMm);
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
            region.cover(moved, t, turned[t] ? reach : 1, (x, y, z) -> {
                if (turned[t]) {
                    return true;
                }
                field.at(x, y, z, sample);
                return Math.abs(sample.miss()) > toleranceMm;
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

    /** Looks at the corners, sides and middles of all suspect triangles. */
    private static void markOffTarget(
            MovedSheet sheet, TriangleMesh face, OffsetField field, double toleranceMm, boolean[] bad) {
        Parallel.forRanges(bad.length, GRAIN, (chunk, from, to) -> {
            OffsetField.Sample sample = new OffsetField.Sample();
            for (int t = from; t < to; t++) {
                if (sheet.suspect()[t] && !bad[t]) {
                    bad[t] = isOffTarget(face, t, field, toleranceMm, sample);
                }
            }
        });
    }

    private static boolean isOffTarget(
            TriangleMesh face, int t, OffsetField field, double toleranceMm, OffsetField.Sample sample) {
        double[] xyz = face.xyz();
        int a = 3 * face.triangles()[3 * t];
        int b = 3 * face.triangles()[3 * t + 1];
        int c = 3 * face.triangles()[3 * t + 2];
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
