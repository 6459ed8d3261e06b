package layupmold.geometry.simplify;

import layupmold.geometry.mesh.TriangleMesh;

/**
 * Collapses edges as long as the surface stays within a deviation: every vertex that remains keeps its place and lies
 * within the deviation of the planes of all triangles it stands for. Sharp edges, the boundary and the borders between
 * labels stay where they are within the same deviation. The order is fixed, so the result is too; about O(n).
 *
 * <p>What it cannot promise: that sheets nearer to each other than the deviation stay apart. Callers check.
 */
public final class Simplifier {

    /** Shares of the deviation allowed pass by pass: cheap collapses come first, whatever their order. */
    private static final double[] PASSES = {0.05, 0.15, 0.4, 0.7, 1, 1, 1};
    /** Candidates tried at a vertex, cheapest first. */
    private static final int TRIES = 3;
    /** Borders between labels only colour the surface: they may move by more than the surface. */
    private static final double LABEL_SLACK = 20;

    /**
     * @param mesh what is left, without unused vertices
     * @param labels label of each of its triangles
     * @param fixed whether a vertex is one of the fixed
     */
    public record Result(TriangleMesh mesh, int[] labels, boolean[] fixed) {

        /** What is left of {@code mesh}, its triangles in their order. */
        static Result of(HalfEdgeMesh mesh, int[] labels, boolean[] fixed) {
            int[] kept = mesh.remainingTriangles();
            int[] left = new int[kept.length];
            for (int i = 0; i < kept.length; i++) {
                left[i] = labels[kept[i]];
            }
            TriangleMesh compact = mesh.compact(kept);
            boolean[] still = new boolean[compact.vertexCount()];
            for (int i = 0; i < compact.triangles().length; i++) {
                still[compact.triangles()[i]] = fixed[mesh.from(3 * kept[i / 3] + i % 3)];
            }
            return new Result(compact, left, still);
        }
    }

    /** Decides on new triangles between fixed vertices: what is done for a surface later looks at others only. */
    @FunctionalInterface
    public interface Bridge {
        boolean allows(double[] xyz, int a, int b, int c);
    }

    private final HalfEdgeMesh mesh;
    private final int[] labels;
    private final boolean[] fixed;
    private final SimplifyLimits limits;
    private final Bridge bridge;
    private final Quadrics quadrics;
    private final CollapseGuard guard;
    private final HalfEdgeMesh.Fan fan = new HalfEdgeMesh.Fan();
    private final int[] candidates = new int[TRIES];
    private final double[] costs = new double[TRIES];

    private Simplifier(TriangleMesh mesh, int[] labels, boolean[] fixed, SimplifyLimits limits, Bridge bridge) {
        this.mesh = new HalfEdgeMesh(mesh);
        this.labels = labels;
        this.fixed = fixed;
        this.limits = limits;
        this.bridge = bridge;
        this.quadrics = new Quadrics(mesh);
        this.guard = new CollapseGuard(this.mesh, limits.leastHeightMm());
        fenceBorders();
    }

    /**
     * @param mesh two-manifold, with or without boundary
     * @param labels one for each triangle
     * @param fixed vertices that stay, unless an edge shorter than the limits allow ends there
     */
    public static Result simplify(TriangleMesh mesh, int[] labels, boolean[] fixed, SimplifyLimits limits) {
        return simplify(mesh, labels, fixed, limits, (xyz, a, b, c) -> true);
    }

    /**
     * @param mesh two-manifold, with or without boundary
     * @param labels one for each triangle
     * @param fixed vertices that stay, unless an edge shorter than the limits allow ends there
     * @param bridge asked before three fixed vertices get a triangle between them
     */
    public static Result simplify(
            TriangleMesh mesh, int[] labels, boolean[] fixed, SimplifyLimits limits, Bridge bridge) {
        Simplifier simplifier = new Simplifier(mesh, labels, fixed, limits, bridge);
        for (double share : PASSES) {
            simplifier.pass(share * limits.deviationMm());
        }
        return Result.of(simplifier.mesh, labels, fixed);
    }

    /** Adds planes that stand upright on the boundary and on the borders between labels. */
    private void fenceBorders() {
        double[] xyz = mesh.xyz;
        for (int h = 0; h < 3 * mesh.triangleCount(); h++) {
            int twin = mesh.twin(h);
            if (twin >= 0 && labels[twin / 3] == labels[h / 3]) {
                continue;
            }
            int u = 3 * mesh.from(h);
            int v = 3 * mesh.to(h);
            int w = 3 * mesh.apex(h);
            double ex = xyz[v] - xyz[u];
            double ey = xyz[v + 1] - xyz[u + 1];
            double ez = xyz[v + 2] - xyz[u + 2];
            double fx = xyz[w] - xyz[u];
            double fy = xyz[w + 1] - xyz[u + 1];
            double fz = xyz[w + 2] - xyz[u + 2];
            double square = ex * ex + ey * ey + ez * ez;
            double along = square > 0 ? (ex * fx + ey * fy + ez * fz) / square : 0;
            double nx = fx - along * ex;
            double ny = fy - along * ey;
            double nz = fz - along * ez;
            double length = Math.sqrt(nx * nx + ny * ny + nz * nz);
            if (length > 0) {
                double weight = twin < 0 ? 1 : 1 / (LABEL_SLACK * LABEL_SLACK);
                for (int end : new int[] {u, v}) {
                    quadrics.addPlane(end / 3, nx / length, ny / length, nz / length, xyz[u], xyz[u + 1], xyz[u + 2],
                            weight);
                }
            }
        }
    }

    private void pass(double deviation) {
        for (int v = 0; v < mesh.vertexCount(); v++) {
            if (mesh.fan(v, fan) > 0) {
                collapseFrom(v, deviation * deviation);
            }
        }
        flipFlatTriangles();
    }

    /** A triangle without height whose sides are all long has a corner on its longest side: that side is flipped. */
    private void flipFlatTriangles() {
        for (int t = 0; t < mesh.triangleCount(); t++) {
            if (mesh.isRemoved(t) || guard.height(3 * t) >= CollapseGuard.FLAT_MM) {
                continue;
            }
            int longest = 3 * t;
            for (int h = 3 * t + 1; h < 3 * t + 3; h++) {
                longest = squaredLength(h) > squaredLength(longest) ? h : longest;
            }
            if (mesh.twin(longest) >= 0 && !isLabelBorder(longest) && guard.allowsFlip(longest)
                    && bridgesFlipped(longest)) {
                mesh.flip(longest);
            }
        }
    }

    private void collapseFrom(int u, double limit) {
        int count = gather(u, limit);
        for (int i = 0; i < count; i++) {
            int h = candidates[i];
            if (guard.allows(h, fan, isTiny(h)) && bridgesCollapsed(h)) {
                quadrics.merge(u, mesh.to(h));
                mesh.collapse(h, fan);
                return;
            }
        }
    }

    /** Whether the triangles that stay around the start of {@code h} may be drawn to its end. */
    private boolean bridgesCollapsed(int h) {
        int v = mesh.to(h);
        for (int i = 0; i < fan.size; i++) {
            int p = mesh.to(fan.halfEdges[i]);
            int q = mesh.apex(fan.halfEdges[i]);
            if (p != v && q != v && !mayBridge(v, p, q)) {
                return false;
            }
        }
        return true;
    }

    private boolean bridgesFlipped(int h) {
        int a = mesh.apex(h);
        int b = mesh.apex(mesh.twin(h));
        return mayBridge(mesh.from(h), b, a) && mayBridge(mesh.to(h), a, b);
    }

    private boolean mayBridge(int a, int b, int c) {
        return !(fixed[a] && fixed[b] && fixed[c]) || bridge.allows(mesh.xyz, a, b, c);
    }

    /** The cheapest half-edges that {@code u} may leave along. */
    private int gather(int u, double limit) {
        int borders = labelBorders();
        int count = 0;
        for (int i = 0; i < fan.size; i++) {
            int h = fan.halfEdges[i];
            // A flat corner of three triangles between labels is none, and must not leave their border.
            boolean tiny = isTiny(h) || borders == 0 && guard.isFin(h, fan);
            if (fixed[u] && !tiny || borders > 0 && !(borders == 2 && isLabelBorder(h)) && !tiny
                    || fan.onBoundary && mesh.twin(h) >= 0) {
                continue;
            }
            int v = mesh.to(h);
            double cost = tiny ? 0 : quadrics.at(u, mesh.xyz[3 * v], mesh.xyz[3 * v + 1], mesh.xyz[3 * v + 2]);
            if (cost <= limit) {
                count = insert(h, cost, count);
            }
        }
        return count;
    }

    private int insert(int h, double cost, int count) {
        int at = Math.min(count, TRIES);
        while (at > 0 && costs[at - 1] > cost) {
            if (at < TRIES) {
                costs[at] = costs[at - 1];
                candidates[at] = candidates[at - 1];
            }
            at--;
        }
        if (at < TRIES) {
            costs[at] = cost;
            candidates[at] = h;
        }
        return Math.min(TRIES, count + 1);
    }

    private int labelBorders() {
        int borders = 0;
        for (int i = 0; i < fan.size; i++) {
            borders += isLabelBorder(fan.halfEdges[i]) ? 1 : 0;
        }
        return borders;
    }

    private boolean isLabelBorder(int h) {
        int twin = mesh.twin(h);
        return twin >= 0 && labels[twin / 3] != labels[h / 3];
    }

    private boolean isTiny(int h) {
        return squaredLength(h) < limits.leastEdgeMm() * limits.leastEdgeMm();
    }

    private double squaredLength(int h) {
        return mesh.squaredLength(mesh.from(h), mesh.to(h));
    }
}
