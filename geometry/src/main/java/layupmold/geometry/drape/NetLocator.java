package layupmold.geometry.drape;

import java.util.Arrays;
import java.util.List;
import layupmold.geometry.mesh.EdgeTopology;

/**
 * Where in the flat cloth each vertex of the sheet comes to lie: a walk over adjacent triangles that starts at the
 * net's nodes and hands each vertex the cell of its neighbour to look in first, so that walls close to each other but
 * not connected are never confused. Within a cell the bilinear patch through its corners is inverted; a vertex just
 * outside every cell is carried by the nearest one. O(vertices).
 */
final class NetLocator {

    /** How far outside its cell, in links, a vertex may be carried. */
    private static final double FARTHEST = 1.5;

    private final ToolSheet sheet;
    private DrapeNet net;
    private int current;
    private final int[] owner;
    private final double[] uv;
    private final double[] excess;
    private int[] queue;
    private int head;
    private int tail;
    private final double[][] corner = new double[4][3];
    private double s;
    private double t;
    private int ci;
    private int cj;

    private NetLocator(ToolSheet sheet) {
        this.sheet = sheet;
        int n = sheet.mesh().vertexCount();
        this.uv = new double[2 * n];
        this.owner = new int[n];
        this.excess = new double[n];
        Arrays.fill(uv, Double.NaN);
        Arrays.fill(excess, Double.POSITIVE_INFINITY);
        this.queue = new int[n + 16];
    }

    /**
     * @param uv flat coordinates in mm, warp then weft, two a vertex; NaN where no cloth lies
     * @param owner which of the nets each vertex was found in
     */
    record Located(double[] uv, int[] owner) {
    }

    /** @param nets of one cloth, all of one step; a vertex belongs to the one it lies deepest in, the first of equals */
    static Located locate(ToolSheet sheet, List<DrapeNet> nets) {
        NetLocator locator = new NetLocator(sheet);
        for (DrapeNet net : nets) {
            locator.net = net;
            locator.seed();
            locator.spread();
            locator.current++;
        }
        double[] flat = locator.uv;
        for (int k = 0; k < flat.length; k++) {
            flat[k] *= nets.get(0).stepMm();
        }
        return new Located(flat, locator.owner);
    }

    private void seed() {
        for (int node = 0; node < net.nodeCount(); node++) {
            if (!net.isOffSheet(node)) {
                for (int k = 0; k < 3; k++) {
                    visit(sheet.mesh().triangles()[3 * net.triangle(node) + k], net.i(node), net.j(node));
                }
            }
        }
    }

    private void spread() {
        int[] triangles = sheet.mesh().triangles();
        int[] outgoing = anyOutgoing(triangles);
        EdgeTopology topology = sheet.topology();
        while (head != tail) {
            int v = queue[head];
            head = (head + 1) % queue.length;
            int first = outgoing[v];
            int h = first;
            do {
                visit(triangles[EdgeTopology.next(h)], uv[2 * v], uv[2 * v + 1]);
                int back = EdgeTopology.next(EdgeTopology.next(h));
                visit(triangles[back], uv[2 * v], uv[2 * v + 1]);
                h = topology.twin(back);
            } while (h >= 0 && h != first);
        }
    }

    /** For each vertex a half-edge leaving it, at the clockwise end of its fan where the fan is open. */
    private int[] anyOutgoing(int[] triangles) {
        int[] outgoing = new int[sheet.mesh().vertexCount()];
        Arrays.fill(outgoing, -1);
        for (int h = 0; h < triangles.length; h++) {
            if (outgoing[triangles[h]] < 0 || sheet.topology().twin(h) < 0) {
                outgoing[triangles[h]] = h;
            }
        }
        return outgoing;
    }

    private void visit(int v, double u, double w) {
        if (excess[v] <= 0 || !findCell(u, w)) {
            return;
        }
        double best = look(v);
        for (int hop = 0; hop < 6 && best > 0; hop++) {
            int di = s < 0 ? -1 : s > 1 ? 1 : 0;
            int dj = t < 0 ? -1 : t > 1 ? 1 : 0;
            int fromI = ci;
            int fromJ = cj;
            if (!tryCell(fromI + di, fromJ + dj) && !tryCell(fromI + di, fromJ) && !tryCell(fromI, fromJ + dj)) {
                break;
            }
            double now = look(v);
            if (now >= best) {
                ci = fromI;
                cj = fromJ;
                look(v);
                break;
            }
            best = now;
        }
        if (best < FARTHEST && best < excess[v] - 0.02) {
            excess[v] = best;
            owner[v] = current;
            uv[2 * v] = ci + s;
            uv[2 * v + 1] = cj + t;
            push(v);
        }
    }

    private void push(int v) {
        queue[tail] = v;
        tail = (tail + 1) % queue.length;
        if (tail == head) {
            int[] larger = new int[2 * queue.length];
            for (int k = 0; k < queue.length; k++) {
                larger[k] = queue[(head + k) % queue.length];
            }
            head = 0;
            tail = queue.length;
            queue = larger;
        }
    }

    private boolean tryCell(int i, int j) {
        if ((i != ci || j != cj) && net.hasCell(i, j)) {
            ci = i;
            cj = j;
            return true;
        }
        return false;
    }

    /** The cell of a flat position, or one beside it. */
    private boolean findCell(double u, double w) {
        int i = (int) Math.floor(u);
        int j = (int) Math.floor(w);
        ci = Integer.MIN_VALUE;
        cj = Integer.MIN_VALUE;
        if (tryCell(i, j)) {
            return true;
        }
        for (int di = -1; di <= 1; di++) {
            for (int dj = -1; dj <= 1; dj++) {
                if (tryCell(i + di, j + dj)) {
                    return true;
                }
            }
        }
        return false;
    }

    /** Inverts the current cell's bilinear patch at a vertex by Gauss-Newton; returns how far outside it lies. */
    private double look(int v) {
        net.copy(net.nodeAt(ci, cj), corner[0]);
        net.copy(net.nodeAt(ci + 1, cj), corner[1]);
        net.copy(net.nodeAt(ci, cj + 1), corner[2]);
        net.copy(net.nodeAt(ci + 1, cj + 1), corner[3]);
        double[] xyz = sheet.mesh().xyz();
        s = 0.5;
        t = 0.5;
        for (int round = 0; round < 5; round++) {
            double aa = 0;
            double ab = 0;
            double bb = 0;
            double ar = 0;
            double br = 0;
            for (int k = 0; k < 3; k++) {
                double e = corner[1][k] - corner[0][k];
                double f = corner[2][k] - corner[0][k];
                double g = corner[3][k] - corner[1][k] - f;
                double r = xyz[3 * v + k] - corner[0][k] - s * e - t * f - s * t * g;
                double ds = e + t * g;
                double dt = f + s * g;
                aa += ds * ds;
                ab += ds * dt;
                bb += dt * dt;
                ar += ds * r;
                br += dt * r;
            }
            double det = aa * bb - ab * ab;
            if (det <= 1e-9 * aa * bb) {
                return Double.POSITIVE_INFINITY;
            }
            double stepS = (bb * ar - ab * br) / det;
            double stepT = (aa * br - ab * ar) / det;
            s = Math.max(-3, Math.min(4, s + stepS));
            t = Math.max(-3, Math.min(4, t + stepT));
            if (Math.abs(stepS) + Math.abs(stepT) < 1e-9) {
                break;
            }
        }
        double outS = Math.max(0, Math.max(-s, s - 1));
        double outT = Math.max(0, Math.max(-t, t - 1));
        return Math.max(outS, outT) < 1e-9 ? 0 : Math.max(outS, outT);
    }
}
