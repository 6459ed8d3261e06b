package layupmold.geometry.drape;

import com.carrotsearch.hppc.LongIntHashMap;
import java.util.Arrays;
import java.util.function.ToIntBiFunction;

/**
 * A pin-jointed net of equal links on the tool surface. Node (i, j) lies at (i · step, j · step) in the flat cloth, i
 * along the warp and j along the weft, and (0, 0) is the start point.
 */
public final class DrapeNet {

    /** No node there. */
    static final int NONE = -1;

    private static final int BIAS = 1 << 20;

    private final double stepMm;
    private final LongIntHashMap nodeAt = new LongIntHashMap();
    private int[] ij = new int[512];
    private double[] xyz = new double[768];
    private int[] triangle = new int[256];
    private boolean[] offSheet = new boolean[256];
    private int size;
    /** Shear of the cell from each node, degrees; NaN where it is still to be taken from the nodes alone. */
    private double[] cellShear = new double[0];

    DrapeNet(double stepMm) {
        this.stepMm = stepMm;
    }

    /** Length of a link, mm. */
    public double stepMm() {
        return stepMm;
    }

    public int nodeCount() {
        return size;
    }

    /** Position of a node along the warp, in links. */
    public int i(int node) {
        return ij[2 * node];
    }

    /** Position of a node along the weft, in links. */
    public int j(int node) {
        return ij[2 * node + 1];
    }

    /** Coordinate 0..2 of a node in the mold's frame, mm. */
    public double xyz(int node, int axis) {
        return xyz[3 * node + axis];
    }

    /** Whether a node lies beyond the sheet's edge, on the straight continuation of the surface. */
    public boolean isOffSheet(int node) {
        return offSheet[node];
    }

    /** The node at (i, j), or −1. */
    public int nodeAt(int i, int j) {
        return nodeAt.getOrDefault(key(i, j), NONE);
    }

    /** Positions in the flat cloth. */
    @FunctionalInterface
    interface Slots {
        boolean has(int i, int j);
    }

    /** The nodes at some positions. */
    DrapeNet part(Slots kept) {
        return part(kept, (t, point) -> t);
    }

    /** The same net on a sheet that was cut open. */
    DrapeNet on(SlitSheet slit) {
        return part((i, j) -> true, slit::triangleAt);
    }

    private DrapeNet part(Slots kept, ToIntBiFunction<Integer, double[]> triangleAt) {
        DrapeNet part = new DrapeNet(stepMm);
        double[] point = new double[3];
        for (int node = 0; node < size; node++) {
            if (kept.has(i(node), j(node))) {
                copy(node, point);
                part.add(i(node), j(node), point, triangleAt.applyAsInt(triangle[node], point), offSheet[node]);
            }
        }
        return part;
    }

    boolean isOnSheet(int i, int j) {
        int node = nodeAt(i, j);
        return node >= 0 && !offSheet[node];
    }

    /** Triangle of a node, or of the sheet's edge it left the sheet by. */
    int triangle(int node) {
        return triangle[node];
    }

    void copy(int node, double[] into) {
        System.arraycopy(xyz, 3 * node, into, 0, 3);
    }

    double squareDistance(int a, int b) {
        double dx = xyz[3 * a] - xyz[3 * b];
        double dy = xyz[3 * a + 1] - xyz[3 * b + 1];
        double dz = xyz[3 * a + 2] - xyz[3 * b + 2];
        return dx * dx + dy * dy + dz * dz;
    }

    int add(int i, int j, double[] point, int inTriangle, boolean off) {
        if (size == triangle.length) {
            ij = Arrays.copyOf(ij, 4 * size);
            xyz = Arrays.copyOf(xyz, 6 * size);
            triangle = Arrays.copyOf(triangle, 2 * size);
            offSheet = Arrays.copyOf(offSheet, 2 * size);
        }
        ij[2 * size] = i;
        ij[2 * size + 1] = j;
        System.arraycopy(point, 0, xyz, 3 * size, 3);
        triangle[size] = inTriangle;
        offSheet[size] = off;
        nodeAt.put(key(i, j), size);
        return size++;
    }

    static long key(int i, int j) {
        return (long) (i + BIAS) << 32 | (j + BIAS);
    }

    /** Whether all four corners of the cell from (i, j) to (i + 1, j + 1) exist. */
    boolean hasCell(int i, int j) {
        return nodeAt(i, j) >= 0 && nodeAt(i + 1, j) >= 0 && nodeAt(i, j + 1) >= 0 && nodeAt(i + 1, j + 1) >= 0;
    }

    /**
     * Signed shear of the cell from (i, j) to (i + 1, j + 1), degrees: how much the angle between warp and weft lost
     * against 90°. From the cell's diagonals, exact for a plane rhombus; they are measured over the sheet, so that a
     * crease is no shear.
     *
     * @return NaN where the cell has not all its corners
     */
    public double cellShearDeg(int i, int j) {
        if (!hasCell(i, j)) {
            return Double.NaN;
        }
        int node = nodeAt(i, j);
        if (node < cellShear.length && !Double.isNaN(cellShear[node])) {
            return cellShear[node];
        }
        return shearDeg(Math.sqrt(squareDistance(nodeAt(i + 1, j), nodeAt(i, j + 1))),
                Math.sqrt(squareDistance(node, nodeAt(i + 1, j + 1))));
    }

    private static double shearDeg(double across, double along) {
        return 90 - 2 * Math.toDegrees(Math.atan2(across, along));
    }

    /** Takes the shear of every cell on the sheet from diagonals over the sheet. O(nodes · triangles a link crosses). */
    void measureCells(ArcLength arcs) {
        cellShear = new double[size];
        for (int node = 0; node < size; node++) {
            int east = nodeAt(i(node) + 1, j(node));
            int north = nodeAt(i(node), j(node) + 1);
            int beyond = nodeAt(i(node) + 1, j(node) + 1);
            boolean whole = east >= 0 && north >= 0 && beyond >= 0;
            cellShear[node] = !whole ? Double.NaN : shearDeg(arc(arcs, east, north), arc(arcs, node, beyond));
        }
    }

    private double arc(ArcLength arcs, int one, int other) {
        if (offSheet[one] && offSheet[other]) {
            return Math.sqrt(squareDistance(one, other));
        }
        int from = offSheet[one] ? other : one;
        int to = offSheet[one] ? one : other;
        double[] p = new double[3];
        double[] q = new double[3];
        copy(from, p);
        copy(to, q);
        return arcs.between(triangle[from], p, triangle[to], q);
    }

    /**
     * Signed shear at a node, degrees, from the links on both sides where they exist.
     *
     * @return NaN where warp or weft has no link there
     */
    public double nodeShearDeg(int node) {
        double[] warp = link(node, 1, 0);
        double[] weft = link(node, 0, 1);
        double dot = 0;
        double a = 0;
        double b = 0;
        for (int k = 0; k < 3; k++) {
            dot += warp[k] * weft[k];
            a += warp[k] * warp[k];
            b += weft[k] * weft[k];
        }
        return 90 - Math.toDegrees(Math.acos(Math.max(-1, Math.min(1, dot / Math.sqrt(a * b)))));
    }

    private double[] link(int node, int di, int dj) {
        int after = nodeAt(i(node) + di, j(node) + dj);
        int before = nodeAt(i(node) - di, j(node) - dj);
        double[] v = new double[3];
        for (int k = 0; k < 3; k++) {
            v[k] = xyz(after >= 0 ? after : node, k) - xyz(before >= 0 ? before : node, k);
        }
        return v;
    }
}
