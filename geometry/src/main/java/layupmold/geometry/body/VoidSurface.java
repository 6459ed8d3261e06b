package layupmold.geometry.body;

import com.carrotsearch.hppc.DoubleArrayList;
import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.LongIntHashMap;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * The surface between void and the rest of a distance grid, by marching tetrahedra: every cube of eight nodes is cut
 * into six tetrahedra about its diagonal (Kuhn), and in each the level is a plane. So the surface is two-manifold and
 * cannot cross itself; it ends where the plan ends. Where the distance is that from a plane, it is that plane. O(nodes).
 *
 * <p>Doi and Koide, "An efficient method of triangulating equi-valued surfaces by using tetrahedral cells", 1991.
 */
final class VoidSurface {

    /** Corners of a cube: bit 0 steps along x, bit 1 along y, bit 2 along z. */
    private static final int[][] TETRAHEDRA = {
        {0, 1, 3, 7}, {0, 3, 2, 7}, {0, 2, 6, 7}, {0, 6, 4, 7}, {0, 4, 5, 7}, {0, 5, 1, 7}};
    /** For each set of a tetrahedron's void corners (bits) its corners, void ones first, evenly permuted. */
    private static final int[][] ORDER = new int[16][];
    /** Vertices keep this share of an edge from its ends, so that rounding to the lattice turns no triangle over. */
    private static final double LEAST_SHARE = 0.02;

    static {
        ORDER[0b0001] = new int[] {0, 1, 2, 3};
        ORDER[0b0010] = new int[] {1, 0, 3, 2};
        ORDER[0b0100] = new int[] {2, 0, 1, 3};
        ORDER[0b1000] = new int[] {3, 0, 2, 1};
        ORDER[0b0011] = new int[] {0, 1, 2, 3};
        ORDER[0b0101] = new int[] {0, 2, 3, 1};
        ORDER[0b1001] = new int[] {0, 3, 1, 2};
        ORDER[0b0110] = new int[] {1, 2, 0, 3};
        ORDER[0b1010] = new int[] {1, 3, 2, 0};
        ORDER[0b1100] = new int[] {2, 3, 0, 1};
    }

    private final DistanceGrid grid;
    private final double level;
    private final CoordinateLattice lattice;
    private final DoubleArrayList xyz = new DoubleArrayList();
    private final IntArrayList triangles = new IntArrayList();
    /** Vertex on each cut edge, by the lower node and the corner it leads to. */
    private final LongIntHashMap onEdge = new LongIntHashMap();
    private final int[] cube = new int[8];

    private VoidSurface(DistanceGrid grid, double level, CoordinateLattice lattice) {
        this.grid = grid;
        this.level = level;
        this.lattice = lattice;
    }

    /** @return facing away from the void */
    static TriangleMesh of(DistanceGrid grid, double level, CoordinateLattice lattice) {
        return new VoidSurface(grid, level, lattice).march();
    }

    private TriangleMesh march() {
        for (int k = 0; k + 1 < grid.nz; k++) {
            for (int j = 0; j + 1 < grid.ny; j++) {
                for (int i = 0; i + 1 < grid.nx; i++) {
                    int column = j * grid.nx + i;
                    if (grid.inPlan[column] && grid.inPlan[column + 1] && grid.inPlan[column + grid.nx]
                            && grid.inPlan[column + grid.nx + 1]) {
                        cut(i, j, k);
                    }
                }
            }
        }
        return new TriangleMesh(xyz.toArray(), triangles.toArray());
    }

    private void cut(int i, int j, int k) {
        int first = grid.node(i, j, k);
        int empty = 0;
        for (int c = 0; c < 8; c++) {
            cube[c] = first + (c & 1) + (c >> 1 & 1) * grid.nx + (c >> 2) * grid.nx * grid.ny;
            empty += grid.isVoid[cube[c]] ? 1 : 0;
        }
        if (empty == 0 || empty == 8) {
            return;
        }
        for (int[] corners : TETRAHEDRA) {
            int set = 0;
            for (int c = 0; c < 4; c++) {
                set |= grid.isVoid[cube[corners[c]]] ? 1 << c : 0;
            }
            if (set != 0 && set != 15) {
                cut(corners, set);
            }
        }
    }

    private void cut(int[] corners, int set) {
        boolean turned = Integer.bitCount(set) == 3;
        int[] order = ORDER[turned ? 15 - set : set];
        int a = corners[order[0]];
        int b = corners[order[1]];
        int c = corners[order[2]];
        int d = corners[order[3]];
        if (Integer.bitCount(set) == 2) {
            int ac = vertex(a, c);
            int bd = vertex(b, d);
            triangles.add(ac, vertex(a, d), bd);
            triangles.add(ac, bd, vertex(b, c));
        } else if (turned) {
            triangles.add(vertex(a, b), vertex(a, d), vertex(a, c));
        } else {
            triangles.add(vertex(a, b), vertex(a, c), vertex(a, d));
        }
    }

    /** On the edge between two of the cube's corners; one's bits are among the other's. */
    private int vertex(int one, int other) {
        int low = Math.min(one, other);
        int high = Math.max(one, other);
        long key = 8L * cube[low] + (high - low);
        int known = onEdge.getOrDefault(key, -1);
        if (known >= 0) {
            return known;
        }
        double from = value(cube[low]);
        double to = value(cube[high]);
        double share = Math.max(LEAST_SHARE, Math.min(1 - LEAST_SHARE, (level - from) / (to - from)));
        int i = cube[low] % grid.nx;
        int j = cube[low] / grid.nx % grid.ny;
        int k = cube[low] / grid.nx / grid.ny;
        int step = high - low;
        xyz.add(lattice.round(grid.x0 + (i + share * (step & 1)) * grid.step),
                lattice.round(grid.y0 + (j + share * (step >> 1 & 1)) * grid.step),
                lattice.round(grid.z0 + (k + share * (step >> 2)) * grid.step));
        int vertex = xyz.size() / 3 - 1;
        onEdge.put(key, vertex);
        return vertex;
    }

    /** Void that was not reached counts as solid. */
    private double value(int node) {
        return grid.isVoid[node] ? grid.distance[node] : Math.min(grid.distance[node], level);
    }
}
