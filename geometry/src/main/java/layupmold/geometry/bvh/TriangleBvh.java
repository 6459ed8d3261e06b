package layupmold.geometry.bvh;

import java.util.function.IntPredicate;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/**
 * A bounding-volume hierarchy over a mesh's triangles for nearest-point, ray and overlap queries.
 *
 * <p>Triangles are parted at medians ({@link MedianOrder}) into equal leaves under an implicit complete binary tree: node
 * {@code i} has children {@code 2i+1} and {@code 2i+2}. Built in O(n log n) on all threads; the tree is the same whatever
 * their number. Immutable; queries may run in parallel.
 */
public final class TriangleBvh {

    private static final int LEAF_SIZE = 2;
    /** More than the depth of the largest tree: of each level one node waits at the most. */
    static final int STACK = 32;
    private static final int GRAIN = 1 << 14;

    final int[] order;
    /** A power of two. */
    final int leafCount;
    private final int leafBits;
    /** Widened to 32-bit floats: half the memory to read. */
    final float[] boxes;
    /** Corners of the triangles in order: nine numbers that lie side by side are read faster than three far apart. */
    final double[] ordered;

    private TriangleBvh(int[] order, int leafCount, float[] boxes) {
        this.order = order;
        this.leafCount = leafCount;
        this.leafBits = Integer.numberOfTrailingZeros(leafCount);
        this.boxes = boxes;
        this.ordered = new double[9 * order.length];
    }

    /** Builds the hierarchy of {@code mesh}; at most 2²³ triangles. */
    public static TriangleBvh of(TriangleMesh mesh) {
        int n = mesh.triangleCount();
        int leaves = Math.max(1, Integer.highestOneBit(Math.max(1, (n + LEAF_SIZE - 1) / LEAF_SIZE) * 2 - 1));
        return fitted(mesh, MedianOrder.of(mesh, leaves), leaves);
    }

    /**
     * The same tree over the same triangles after their corners moved, in O(n): as fast to search as a new one if they
     * moved little or all alike.
     */
    public TriangleBvh movedTo(TriangleMesh mesh) {
        if (mesh.triangleCount() != order.length) {
            throw new IllegalArgumentException("not the triangles of this hierarchy");
        }
        return fitted(mesh, order, leafCount);
    }

    private static TriangleBvh fitted(TriangleMesh mesh, int[] order, int leaves) {
        TriangleBvh bvh = new TriangleBvh(order, leaves, new float[6 * (2 * leaves - 1)]);
        Parallel.forRanges(leaves, GRAIN, (chunk, from, to) -> {
            for (int leaf = from; leaf < to; leaf++) {
                bvh.fitLeaf(mesh.xyz(), mesh.triangles(), leaf);
            }
        });
        fitInner(bvh.boxes, leaves);
        return bvh;
    }

    int leafStart(int leaf) {
        return (int) ((long) leaf * order.length >> leafBits);
    }

    private void fitLeaf(double[] xyz, int[] triangles, int leaf) {
        int from = 9 * leafStart(leaf);
        int to = 9 * leafStart(leaf + 1);
        for (int i = from; i < to; i += 3) {
            System.arraycopy(xyz, 3 * triangles[3 * order[i / 9] + i % 9 / 3], ordered, i, 3);
        }
        int b = 6 * (leafCount - 1 + leaf);
        for (int k = 0; k < 3; k++) {
            double least = Double.POSITIVE_INFINITY;
            double most = Double.NEGATIVE_INFINITY;
            for (int i = from + k; i < to; i += 3) {
                least = Math.min(least, ordered[i]);
                most = Math.max(most, ordered[i]);
            }
            boxes[b + k] = below(least);
            boxes[b + 3 + k] = -below(-most);
        }
    }

    /** The greatest float that is no greater. */
    static float below(double value) {
        float nearest = (float) value;
        return nearest > value ? Math.nextDown(nearest) : nearest;
    }

    /** Unites the boxes of the leaves level by level. */
    static void fitInner(float[] boxes, int leafCount) {
        for (int node = leafCount - 2; node >= 0; node--) {
            int b = 6 * node;
            int left = 6 * (2 * node + 1);
            int right = left + 6;
            for (int k = 0; k < 3; k++) {
                boxes[b + k] = Math.min(boxes[left + k], boxes[right + k]);
                boxes[b + 3 + k] = Math.max(boxes[left + 3 + k], boxes[right + 3 + k]);
            }
        }
    }

    /**
     * The point of the mesh nearest to (x, y, z), if any lies within {@code maxDistance}.
     *
     * @param answer receives the result; its triangle is -1 if nothing is near enough
     */
    public void nearest(double x, double y, double z, double maxDistance, NearestPoint answer) {
        nearest(x, y, z, maxDistance, null, answer);
    }

    /**
     * The same over the triangles that {@code accept} takes only.
     *
     * @param accept asked once a triangle that may be nearer than the nearest so far; null takes all
     */
    public void nearest(double x, double y, double z, double maxDistance, IntPredicate accept, NearestPoint answer) {
        answer.begin(maxDistance);
        if (order.length == 0) {
            return;
        }
        int[] stack = answer.waiting;
        double[] away = answer.away;
        stack[0] = 0;
        away[0] = 0;
        int size = 1;
        while (size > 0) {
            int node = stack[--size];
            if (away[size] > answer.distanceSquared) {
                continue;
            }
            if (node >= leafCount - 1) {
                nearestInLeaf(node - leafCount + 1, x, y, z, accept, answer);
                continue;
            }
            int left = 2 * node + 1;
            double dLeft = boxDistanceSquared(left, x, y, z);
            double dRight = boxDistanceSquared(left + 1, x, y, z);
            boolean leftFirst = dLeft <= dRight;
            double far = leftFirst ? dRight : dLeft;
            if (far <= answer.distanceSquared) {
                stack[size] = leftFirst ? left + 1 : left;
                away[size++] = far;
            }
            double near = leftFirst ? dLeft : dRight;
            if (near <= answer.distanceSquared) {
                stack[size] = leftFirst ? left : left + 1;
                away[size++] = near;
            }
        }
    }

    /**
     * The nearest point however far it is, among triangles that {@code accept} takes, looked for within {@code likelyMm}
     * first: a search with a bound looks at far fewer triangles.
     */
    public void nearestAnywhere(
            double x, double y, double z, double likelyMm, IntPredicate accept, NearestPoint answer) {
        nearest(x, y, z, likelyMm, accept, answer);
        if (answer.triangle < 0) {
            nearest(x, y, z, Double.POSITIVE_INFINITY, accept, answer);
        }
    }

    private void nearestInLeaf(
            int leaf, double x, double y, double z, IntPredicate accept, NearestPoint answer) {
        for (int i = leafStart(leaf); i < leafStart(leaf + 1); i++) {
            int t = order[i];
            if (accept != null && !accept.test(t)) {
                continue;
            }
            onTriangle(i, x, y, z, answer);
        }
    }

    /** Lowers {@code answer} to the triangle at {@code i} in the order if it is nearer. */
    void onTriangle(int i, double x, double y, double z, NearestPoint answer) {
        ClosestPoint.onTriangle(ordered, 9 * i, 9 * i + 3, 9 * i + 6, x, y, z, order[i], answer);
    }

    double boxDistanceSquared(int node, double x, double y, double z) {
        int b = 6 * node;
        double dx = beyond(x, boxes[b], boxes[b + 3]);
        double dy = beyond(y, boxes[b + 1], boxes[b + 4]);
        double dz = beyond(z, boxes[b + 2], boxes[b + 5]);
        return dx * dx + dy * dy + dz * dz;
    }

    /** Distance to an interval: the greater of both differences and 0, exactly, but faster than greater-of is. */
    private static double beyond(double x, double low, double high) {
        double under = low - x;
        double over = x - high;
        return 0.5 * (under + Math.abs(under) + (over + Math.abs(over)));
    }

    /**
     * The first triangle that the ray from (ox, oy, oz) along (dx, dy, dz) meets with {@code tMin < t < tMax}, from
     * either side.
     *
     * @param ignoredTriangle a triangle to pass through, usually the one the ray starts on, or -1
     * @param answer receives the result; its triangle is -1 if nothing is hit
     */
    public void firstHit(double ox, double oy, double oz, double dx, double dy, double dz,
            double tMin, double tMax, int ignoredTriangle, RayHit answer) {
        RayWalk.firstHit(this, ox, oy, oz, dx, dy, dz, tMin, tMax, ignoredTriangle, answer);
    }

    /**
     * Whether the ray from (ox, oy, oz) along (dx, dy, dz) meets any triangle at {@code t > tMin}, from either side;
     * cheaper than {@link #firstHit}.
     *
     * @param ignoredTriangle a triangle to pass through, or -1
     */
    public boolean isHit(double ox, double oy, double oz, double dx, double dy, double dz, double tMin,
            int ignoredTriangle) {
        return RayWalk.isHit(this, ox, oy, oz, dx, dy, dz, tMin, ignoredTriangle);
    }

    /** Receives the triangles of an overlap query. */
    @FunctionalInterface
    public interface TriangleVisitor {
        /** Returns false to end the query. */
        boolean visit(int triangle);
    }

    /** Visits every triangle whose leaf's box overlaps that of three points, given by the indices of their x. */
    public void overlapping(double[] xyz, int a, int b, int c, TriangleVisitor visitor) {
        overlapping(Math.min(xyz[a], Math.min(xyz[b], xyz[c])),
                Math.min(xyz[a + 1], Math.min(xyz[b + 1], xyz[c + 1])),
                Math.min(xyz[a + 2], Math.min(xyz[b + 2], xyz[c + 2])),
                Math.max(xyz[a], Math.max(xyz[b], xyz[c])),
                Math.max(xyz[a + 1], Math.max(xyz[b + 1], xyz[c + 1])),
                Math.max(xyz[a + 2], Math.max(xyz[b + 2], xyz[c + 2])), visitor);
    }

    /** Visits every triangle whose leaf's box overlaps the closed box given by its least and greatest corner. */
    public void overlapping(double minX, double minY, double minZ, double maxX, double maxY, double maxZ,
            TriangleVisitor visitor) {
        if (order.length == 0) {
            return;
        }
        int[] stack = new int[STACK];
        int size = 0;
        stack[size++] = 0;
        while (size > 0) {
            int node = stack[--size];
            int b = 6 * node;
            if (boxes[b] > maxX || boxes[b + 3] < minX || boxes[b + 1] > maxY || boxes[b + 4] < minY
                    || boxes[b + 2] > maxZ || boxes[b + 5] < minZ) {
                continue;
            }
            if (node < leafCount - 1) {
                stack[size++] = 2 * node + 2;
                stack[size++] = 2 * node + 1;
                continue;
            }
            int leaf = node - leafCount + 1;
            for (int i = leafStart(leaf); i < leafStart(leaf + 1); i++) {
                if (!visitor.visit(order[i])) {
                    return;
                }
            }
        }
    }

    boolean boxesOverlap(int node, int other) {
        int a = 6 * node;
        int b = 6 * other;
        return boxes[a] <= boxes[b + 3] && boxes[b] <= boxes[a + 3] && boxes[a + 1] <= boxes[b + 4]
                && boxes[b + 1] <= boxes[a + 4] && boxes[a + 2] <= boxes[b + 5] && boxes[b + 2] <= boxes[a + 5];
    }

    /** Whether the boxes of the triangles at two places of the order are apart. */
    boolean areApart(int i, int k) {
        return areApart(9 * i, 9 * k, 0) || areApart(9 * i, 9 * k, 1) || areApart(9 * i, 9 * k, 2);
    }

    private boolean areApart(int a, int b, int axis) {
        double p = ordered[a + axis];
        double u = ordered[b + axis];
        return p < u ? areBelow(a + axis, b + axis) : areBelow(b + axis, a + axis);
    }

    /** Whether the three corners' coordinates from one place on are less than those from another. */
    private boolean areBelow(int a, int b) {
        double u = ordered[b];
        double v = ordered[b + 3];
        double w = ordered[b + 6];
        double p = ordered[a];
        double q = ordered[a + 3];
        double r = ordered[a + 6];
        return p < u && p < v && p < w && q < u && q < v && q < w && r < u && r < v && r < w;
    }

    /** Triangle indices leaf by leaf: neighbours in the list are near each other in space. */
    public int[] order() {
        return order;
    }
}
