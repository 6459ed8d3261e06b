package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.IntArrayList;
import java.util.function.IntFunction;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.simplify.TriangleMiss;

/**
 * Where a moved surface has to be contoured anew.
 *
 * @param mesh the surface
 * @param edges ends of edges at which it is not sound, six numbers an edge
 * @param triangles triangles that miss the offset
 * @param needed which places of those need it
 * @param worst where one of them misses most, under the closest look
 * @param pairs triangles that cross, two by two
 */
record Defects(TriangleMesh mesh, double[] edges, int[] triangles, RepairRegion.Place needed,
        IntFunction<double[]> worst, int[] pairs) {

    static Defects atEdges(TriangleMesh mesh, double[] edges) {
        return new Defects(mesh, edges, new int[0], null, null, new int[0]);
    }

    /** Turned triangles, by their sides, crossing ones, and places that miss by more than {@code toleranceMm}. */
    static Defects ofFolds(MovedSurface moved, int[] pairs, OffsetField field, double toleranceMm) {
        TriangleMesh mesh = moved.mesh();
        double[] sides = sides(mesh, indices(moved.turned()));
        return new Defects(mesh, sides, new int[0], null, null, pairs).andOffTarget(field, toleranceMm);
    }

    /** Ends of the triangles' sides, six numbers a side. */
    static double[] sides(TriangleMesh mesh, int[] triangles) {
        double[] sides = new double[18 * triangles.length];
        for (int i = 0; i < 3 * triangles.length; i++) {
            int t = triangles[i / 3];
            System.arraycopy(mesh.xyz(), 3 * mesh.triangles()[3 * t + i % 3], sides, 6 * i, 3);
            System.arraycopy(mesh.xyz(), 3 * mesh.triangles()[3 * t + (i + 1) % 3], sides, 6 * i + 3, 3);
        }
        return sides;
    }

    /** Places of chosen triangles that miss by more than {@code toleranceMm}, and all of those that cross. */
    static Defects offTarget(
            TriangleMesh mesh, boolean[] off, int[] crossing, OffsetField field, double toleranceMm) {
        OffsetField.Sample sample = new OffsetField.Sample();
        return new Defects(mesh, sides(mesh, crossing), indices(off), (x, y, z) -> {
            field.at(x, y, z, sample);
            return Math.abs(sample.miss()) > toleranceMm;
        }, t -> worst(mesh, t, field), new int[0]);
    }

    boolean isNone() {
        return edges.length == 0 && triangles.length == 0 && pairs.length == 0;
    }

    /** These, and places of the same surface that miss by more than {@code toleranceMm}. */
    Defects andOffTarget(OffsetField field, double toleranceMm) {
        Defects off = offTarget(mesh, OffTarget.triangles(mesh, t -> true, field, t -> toleranceMm), new int[0],
                field, toleranceMm);
        return new Defects(mesh, edges, off.triangles, off.needed, off.worst, pairs);
    }

    private static double[] worst(TriangleMesh mesh, int t, OffsetField field) {
        TriangleMiss miss = new TriangleMiss(field.target());
        int[] corners = mesh.triangles();
        miss.worst(mesh.xyz(), corners[3 * t], corners[3 * t + 1], corners[3 * t + 2], Double.POSITIVE_INFINITY);
        return miss.worstPlace();
    }

    private static int[] indices(boolean[] chosen) {
        IntArrayList indices = new IntArrayList();
        for (int t = 0; t < chosen.length; t++) {
            if (chosen[t]) {
                indices.add(t);
            }
        }
        return indices.toArray();
    }

    /**
     * Covers them, and of triangles that cross their common bounds.
     *
     * @return false if that takes more than {@code budget} cells
     */
    boolean cover(RepairRegion region, int reach, int budget) {
        for (int i = 0; i < edges.length; i += 6) {
            region.coverSegment(edges, i, reach);
        }
        for (int t : triangles) {
            coverMissed(region, t, reach);
            if (region.size() > budget) {
                return false;
            }
        }
        for (int i = 0; i < pairs.length; i += 2) {
            double[] common = commonBounds(pairs[i], pairs[i + 1]);
            region.cover(mesh, pairs[i], reach, (x, y, z) -> contains(common, x, y, z));
            region.cover(mesh, pairs[i + 1], reach, (x, y, z) -> contains(common, x, y, z));
            if (region.size() > budget) {
                return false;
            }
        }
        return region.size() <= budget;
    }

    /** Where a triangle misses in less room than a cell, the place where it misses most. */
    private void coverMissed(RepairRegion region, int t, int reach) {
        if (!region.cover(mesh, t, reach, needed)) {
            double[] place = worst.apply(t);
            region.coverPoint(place[0], place[1], place[2], reach);
        }
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
            extreme = Math.max(extreme, sign * mesh.xyz()[3 * mesh.triangles()[3 * t + k] + axis]);
        }
        return sign * extreme;
    }

    /** Widened by half a millimetre: pieces are looked at by a few points only. */
    private static boolean contains(double[] box, double x, double y, double z) {
        double slack = 0.5;
        return x >= box[0] - slack && x <= box[3] + slack && y >= box[1] - slack && y <= box[4] + slack
                && z >= box[2] - slack && z <= box[5] + slack;
    }
}
