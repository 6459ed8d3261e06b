package layupmold.geometry.drape;

import com.carrotsearch.hppc.LongHashSet;
import java.util.Map;
import java.util.PriorityQueue;
import java.util.TreeMap;
import org.joml.Vector3d;

/**
 * Lays the net from a start point: two geodesic threads first, then every node that two neighbours determine, nearest
 * to the start first. Where the sheet goes on but nothing determines the next node (it bends around a corner of the
 * outline), one thread is continued straight, as the generators are, and the filling resumes. Last, one ring of nodes
 * is laid beyond the sheet's edge so that edge cells are whole.
 *
 * <p>Deterministic: ties are broken by node position. O(nodes · triangles a link crosses).
 */
final class NetGrowth {

    private static final int[][] DIRECTIONS = {{1, 0}, {-1, 0}, {0, 1}, {0, -1}};
    private static final int[][] DIAGONALS = {{1, 1}, {-1, 1}, {1, -1}, {-1, -1}};

    private final ToolSheet sheet;
    private final int mostNodes;
    private final DrapeNet net;
    private final DrapeNet.Slots free;
    private final NodeSolver solver;
    /** Null in a sketch. */
    private final ArcNodes arcNodes;
    private final ThreadWalk thread;
    private final PriorityQueue<Slot> queue = new PriorityQueue<>();
    /** Slots that neighbours determine to lie beyond the edge, or where the net cannot close. */
    private final LongHashSet refused = new LongHashSet();
    private final double[] scratch = new double[3];
    private final double[] behind = new double[3];

    private record Slot(int ring, int i, int j) implements Comparable<Slot> {
        @Override
        public int compareTo(Slot other) {
            return ring != other.ring ? Integer.compare(ring, other.ring)
                    : i != other.i ? Integer.compare(i, other.i) : Integer.compare(j, other.j);
        }
    }

    private NetGrowth(ToolSheet sheet, DrapeNet net, DrapeNet.Slots free, int mostNodes, boolean overTheSheet) {
        this.sheet = sheet;
        this.mostNodes = mostNodes;
        this.net = net;
        this.free = free;
        this.solver = new NodeSolver(sheet, net);
        this.arcNodes = overTheSheet ? new ArcNodes(sheet, net) : null;
        this.thread = new ThreadWalk(sheet, net.stepMm(), overTheSheet);
    }

    /**
     * @param triangle where the start point lies
     * @param start start point, on that triangle
     * @param warp direction of the warp there; projected into the triangle's plane
     */
    static DrapeNet grow(ToolSheet sheet, int triangle, Vector3d start, Vector3d warp, double stepMm, int mostNodes) {
        DrapeNet net = new NetGrowth(sheet, new DrapeNet(stepMm), (i, j) -> true, mostNodes, true)
                .grow(triangle, start, warp);
        net.measureCells(new ArcLength(sheet));
        return net;
    }

    /** A net whose links are straight: many times as quick, but it cuts corners lower than its step. */
    static DrapeNet sketch(ToolSheet sheet, int triangle, Vector3d start, Vector3d warp, double stepMm, int mostNodes) {
        return new NetGrowth(sheet, new DrapeNet(stepMm), (i, j) -> true, mostNodes, false)
                .grow(triangle, start, warp);
    }

    /**
     * Goes on from threads that lie already.
     *
     * @param laid grows
     * @param free where it may
     */
    static void goOn(ToolSheet sheet, DrapeNet laid, DrapeNet.Slots free, int mostNodes) {
        NetGrowth growth = new NetGrowth(sheet, laid, free, mostNodes, true);
        for (int node = 0; node < laid.nodeCount(); node++) {
            growth.queueAround(laid.i(node), laid.j(node));
        }
        growth.finish();
        laid.measureCells(new ArcLength(sheet));
    }

    private DrapeNet grow(int triangle, Vector3d start, Vector3d warp) {
        layGenerators(triangle, start, warp);
        finish();
        return net;
    }

    private void finish() {
        fill();
        while (continueOneThread()) {
            fill();
        }
        layRimBeyondEdge();
    }

    private void layGenerators(int triangle, Vector3d start, Vector3d warp) {
        Vector3d weft = sheet.normal(triangle).cross(warp);
        double[] origin = {start.x, start.y, start.z};
        place(0, 0, origin, triangle);
        for (int[] d : DIRECTIONS) {
            Vector3d towards = d[0] != 0 ? new Vector3d(warp).mul(d[0]) : new Vector3d(weft).mul(d[1]);
            if (!thread.start(triangle, origin, new double[] {towards.x, towards.y, towards.z})) {
                continue;
            }
            for (int n = 1; net.nodeCount() < mostNodes && thread.step() && !thread.offSheet; n++) {
                place(n * d[0], n * d[1], thread.point, thread.triangle);
            }
        }
    }

    private void place(int i, int j, double[] point, int triangle) {
        net.add(i, j, point, triangle, false);
        queueAround(i, j);
    }

    private boolean isOpen(int i, int j) {
        return net.nodeAt(i, j) < 0 && free.has(i, j);
    }

    private void queueAround(int i, int j) {
        for (int di = -1; di <= 1; di++) {
            for (int dj = -1; dj <= 1; dj++) {
                if (isOpen(i + di, j + dj)) {
                    queue.add(new Slot(Math.abs(i + di) + Math.abs(j + dj), i + di, j + dj));
                }
            }
        }
    }

    private void fill() {
        while (!queue.isEmpty() && net.nodeCount() < mostNodes) {
            Slot slot = queue.poll();
            if (net.nodeAt(slot.i, slot.j) >= 0) {
                continue;
            }
            NodeSolver.Result result = solve(slot.i, slot.j, false);
            if (result == NodeSolver.Result.ON_SHEET) {
                place(slot.i, slot.j, solver.point, solver.triangle);
            } else if (result != null) {
                refused.add(DrapeNet.key(slot.i, slot.j));
            }
        }
    }

    /** Tries every cell that determines the slot; null if none does. */
    private NodeSolver.Result solve(int i, int j, boolean beyond) {
        NodeSolver.Result last = null;
        for (int[] d : DIAGONALS) {
            int a = net.nodeAt(i - d[0], j);
            int b = net.nodeAt(i, j - d[1]);
            int c = net.nodeAt(i - d[0], j - d[1]);
            if (a < 0 || b < 0 || c < 0) {
                continue;
            }
            boolean touches = !net.isOffSheet(a) || !net.isOffSheet(b) || !net.isOffSheet(c);
            if (beyond && !touches) {
                continue;
            }
            NodeSolver.Result result = fourthCorner(a, b, c);
            if (result == NodeSolver.Result.ON_SHEET || beyond && result == NodeSolver.Result.OFF_SHEET) {
                return result;
            }
            last = result;
        }
        return last;
    }

    /** Beyond the sheet's edge, and where the surface is too rough to measure over it, straight links do. */
    private NodeSolver.Result fourthCorner(int a, int b, int c) {
        if (arcNodes == null || net.isOffSheet(a) || net.isOffSheet(b)) {
            return solver.solve(a, b, c);
        }
        NodeSolver.Result result = arcNodes.solve(a, b, c);
        if (result == null) {
            return solver.solve(a, b, c);
        }
        System.arraycopy(arcNodes.point, 0, solver.point, 0, 3);
        solver.triangle = arcNodes.triangle;
        return result;
    }

    /** Continues the thread nearest to the start that is free to go on; false if none is. */
    private boolean continueOneThread() {
        TreeMap<Slot, Integer> open = new TreeMap<>();
        for (int node = 0; node < net.nodeCount(); node++) {
            for (int[] d : DIRECTIONS) {
                int i = net.i(node) + d[0];
                int j = net.j(node) + d[1];
                if (isOpen(i, j) && !refused.contains(DrapeNet.key(i, j))) {
                    open.putIfAbsent(new Slot(Math.abs(i) + Math.abs(j), i, j), node);
                }
            }
        }
        for (Map.Entry<Slot, Integer> entry : open.entrySet()) {
            Slot slot = entry.getKey();
            if (net.nodeCount() < mostNodes && stepStraight(entry.getValue(), slot.i, slot.j) && !thread.offSheet
                    && isFree(thread.point)) {
                place(slot.i, slot.j, thread.point, thread.triangle);
                return true;
            }
            refused.add(DrapeNet.key(slot.i, slot.j));
        }
        return false;
    }

    /** Continues the thread through {@code node} by one link to (i, j). */
    private boolean stepStraight(int node, int i, int j) {
        int before = net.nodeAt(2 * net.i(node) - i, 2 * net.j(node) - j);
        if (before < 0 || net.isOffSheet(node)) {
            return false;
        }
        net.copy(node, scratch);
        net.copy(before, behind);
        return thread.startFrom(net.triangle(before), behind, net.triangle(node), scratch) && thread.step();
    }

    /** A continued thread must not run over cloth that already lies there. */
    private boolean isFree(double[] p) {
        double least = net.stepMm() * net.stepMm() / 4;
        for (int node = 0; node < net.nodeCount(); node++) {
            double dx = net.xyz(node, 0) - p[0];
            double dy = net.xyz(node, 1) - p[1];
            double dz = net.xyz(node, 2) - p[2];
            if (dx * dx + dy * dy + dz * dz < least) {
                return false;
            }
        }
        return true;
    }

    private void layRimBeyondEdge() {
        for (int round = 0; round < 2; round++) {
            int laid = net.nodeCount();
            for (int node = 0; node < laid; node++) {
                for (int[] d : DIRECTIONS) {
                    rimNode(net.i(node) + d[0], net.j(node) + d[1]);
                }
            }
            laid = net.nodeCount();
            for (int node = 0; node < laid; node++) {
                for (int[] d : DIRECTIONS) {
                    int i = net.i(node) + d[0];
                    int j = net.j(node) + d[1];
                    if (isOpen(i, j) && stepStraight(node, i, j)) {
                        net.add(i, j, thread.point, thread.triangle, thread.offSheet);
                    }
                }
            }
        }
    }

    private void rimNode(int i, int j) {
        if (isOpen(i, j) && solve(i, j, true) == NodeSolver.Result.OFF_SHEET) {
            net.add(i, j, solver.point, solver.triangle, true);
        }
    }
}
