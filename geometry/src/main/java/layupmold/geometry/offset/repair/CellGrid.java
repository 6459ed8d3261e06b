package layupmold.geometry.offset.repair;

import layupmold.geometry.mesh.TriangleMesh;

/**
 * A uniform grid of cubic cells, addressed by packed long keys (20 bits an axis). Cell (i, j, k) spans from its lower
 * corner, which has the same indices and key, to the corner (i+1, j+1, k+1).
 */
final class CellGrid {

    static final int BITS = 20;
    private static final long MASK = (1L << BITS) - 1;
    /** Keys of the neighbours one step up an axis differ by this. */
    static final long[] STEP = {1L, 1L << BITS, 1L << 2 * BITS};
    /** Leaves room for cells beyond the mesh's bounds. */
    private static final int MARGIN = 16;

    final double originX;
    final double originY;
    final double originZ;
    final double size;

    CellGrid(TriangleMesh mesh, double size) {
        double[] box = mesh.bounds();
        this.size = size;
        // An irrational shift keeps vertices with round coordinates off the grid's planes.
        originX = box[0] - (MARGIN + 0.4142135623730951) * size;
        originY = box[1] - (MARGIN + 0.7320508075688772) * size;
        originZ = box[2] - (MARGIN + 0.2360679774997896) * size;
    }

    int index(double coordinate, int axis) {
        return (int) Math.floor((coordinate - origin(axis)) / size);
    }

    double origin(int axis) {
        return axis == 0 ? originX : axis == 1 ? originY : originZ;
    }

    /** Coordinate of the grid plane with index {@code i} across {@code axis}. */
    double plane(int axis, int i) {
        return origin(axis) + i * size;
    }

    long cellOf(double x, double y, double z) {
        return key(index(x, 0), index(y, 1), index(z, 2));
    }

    static long key(int i, int j, int k) {
        return i | (long) j << BITS | (long) k << 2 * BITS;
    }

    /** Key of the grid edge that leaves the corner {@code key} along {@code axis}. */
    static long edgeKey(long corner, int axis) {
        return corner << 2 | axis;
    }

    static int component(long key, int axis) {
        return (int) (key >>> axis * BITS & MASK);
    }
}
