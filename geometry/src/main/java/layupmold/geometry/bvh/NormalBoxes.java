package layupmold.geometry.bvh;

import layupmold.geometry.parallel.Parallel;

/**
 * For each node of a hierarchy a box around the unit normals of its triangles: tells which nodes hold none that turns far
 * away from a direction. O(n) to build, on all threads; immutable.
 */
public final class NormalBoxes {

    private static final int GRAIN = 1 << 14;
    /** More than a scalar product of two unit vectors may be off. */
    private static final double ROUNDING = 1e-12;

    /** Least and greatest normal of each node, widened to 32-bit floats. */
    private final float[] boxes;

    private NormalBoxes(int nodes) {
        boxes = new float[6 * nodes];
    }

    /** @param normals three numbers a triangle of the hierarchy's mesh; zero for one without a normal */
    public static NormalBoxes of(TriangleBvh bvh, double[] normals) {
        int firstLeaf = bvh.leafCount - 1;
        NormalBoxes turns = new NormalBoxes(firstLeaf + bvh.leafCount);
        Parallel.forRanges(bvh.leafCount, GRAIN, (chunk, from, to) -> {
            for (int leaf = from; leaf < to; leaf++) {
                for (int k = 0; k < 3; k++) {
                    turns.fitLeaf(bvh, normals, leaf, 6 * (firstLeaf + leaf), k);
                }
            }
        });
        TriangleBvh.fitInner(turns.boxes, bvh.leafCount);
        return turns;
    }

    private void fitLeaf(TriangleBvh bvh, double[] normals, int leaf, int at, int axis) {
        double least = Double.POSITIVE_INFINITY;
        double most = Double.NEGATIVE_INFINITY;
        for (int i = bvh.leafStart(leaf); i < bvh.leafStart(leaf + 1); i++) {
            double n = normals[3 * bvh.order[i] + axis];
            least = Math.min(least, n);
            most = Math.max(most, n);
        }
        boxes[at + axis] = TriangleBvh.below(least);
        boxes[at + 3 + axis] = -TriangleBvh.below(-most);
    }

    /** No greater than the least scalar product of (x, y, z) with a normal below the node, for a unit vector. */
    public double leastAlong(int node, double x, double y, double z) {
        int b = 6 * node;
        return Math.min(x * boxes[b], x * boxes[b + 3]) + Math.min(y * boxes[b + 1], y * boxes[b + 4])
                + Math.min(z * boxes[b + 2], z * boxes[b + 5]) - ROUNDING;
    }
}
