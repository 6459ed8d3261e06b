package layupmold.geometry.delaunay;

import java.util.Arrays;
import layupmold.geometry.delaunay.PlanarGraphException.Kind;
import layupmold.geometry.predicates.Predicates;

/**
 * A triangulation under construction, as half-edges in flat arrays. Half-edge {@code 3t + i} leaves corner {@code i} of
 * triangle {@code t}. A point at infinity closes the plane: each hull edge also bounds a "ghost" triangle whose third
 * corner is {@link #infinity}, so that insertion outside the hull needs no special case and all collinear input is
 * decided by exact predicates.
 *
 * <p>Incremental insertion with Lawson flips; the walk to the next point is a visibility walk, which ends on every
 * Delaunay triangulation.
 */
final class DelaunayMesh {

    final double[] xy;
    final int infinity;
    /** Vertex a half-edge leaves. */
    final int[] origin;
    final int[] twin;
    /** One plus the index of the segment on a half-edge; 0 for none. */
    final int[] segment;
    /** Some half-edge that leaves a vertex. */
    final int[] leaving;

    private int triangleCount;
    private int lastTriangle;
    private int[] pending = new int[64];
    private int pendingCount;
    private boolean onEdge;

    private DelaunayMesh(double[] xy, int pointCount) {
        this.xy = xy;
        this.infinity = xy.length / 2;
        int halfEdges = 3 * (2 * pointCount - 2);
        this.origin = new int[halfEdges];
        this.twin = new int[halfEdges];
        this.segment = new int[halfEdges];
        this.leaving = new int[infinity + 1];
        Arrays.fill(leaving, -1);
    }

    /**
     * The Delaunay triangulation of the given points.
     *
     * @return null if the points span no area
     * @throws PlanarGraphException if a coordinate is not finite or two points coincide
     */
    static DelaunayMesh of(double[] xy, int[] points) {
        for (int p : points) {
            if (!Double.isFinite(xy[2 * p]) || !Double.isFinite(xy[2 * p + 1])) {
                throw new PlanarGraphException(Kind.NOT_FINITE, p, -1, "point " + p + " is not finite");
            }
        }
        int[] order = InsertionOrder.of(xy, points);
        int third = firstOffLine(xy, order);
        if (third < 0) {
            return null;
        }
        DelaunayMesh mesh = new DelaunayMesh(xy, points.length);
        mesh.firstTriangle(order[0], order[1], order[third]);
        for (int i = 2; i < order.length; i++) {
            if (i != third) {
                mesh.insert(order[i]);
            }
        }
        return mesh;
    }

    private static int firstOffLine(double[] xy, int[] order) {
        if (order.length > 1) {
            requireApart(xy, order[0], order[1]);
        }
        for (int i = 2; i < order.length; i++) {
            if (orient(xy, order[0], order[1], order[i]) != 0) {
                return i;
            }
        }
        return -1;
    }

    private static void requireApart(double[] xy, int p, int q) {
        if (xy[2 * p] == xy[2 * q] && xy[2 * p + 1] == xy[2 * q + 1]) {
            throw new PlanarGraphException(Kind.REPEATED_POINT, Math.min(p, q), Math.max(p, q),
                    "points " + Math.min(p, q) + " and " + Math.max(p, q) + " coincide");
        }
    }

    private void firstTriangle(int p, int q, int r) {
        boolean left = orient(p, q, r) > 0;
        int a = p;
        int b = left ? q : r;
        int c = left ? r : q;
        setTriangle(0, a, b, c);
        setTriangle(1, b, a, infinity);
        setTriangle(2, c, b, infinity);
        setTriangle(3, a, c, infinity);
        triangleCount = 4;
        link(0, 3);
        link(1, 6);
        link(2, 9);
        link(4, 11);
        link(7, 5);
        link(10, 8);
    }

    int halfEdgeCount() {
        return 3 * triangleCount;
    }

    static int next(int h) {
        return h % 3 == 2 ? h - 2 : h + 1;
    }

    static int previous(int h) {
        return h % 3 == 0 ? h + 2 : h - 1;
    }

    int destination(int h) {
        return origin[next(h)];
    }

    /** The corner of {@code h}'s triangle that {@code h} does not touch. */
    int apex(int h) {
        return origin[previous(h)];
    }

    boolean isGhost(int t) {
        return origin[3 * t] == infinity || origin[3 * t + 1] == infinity || origin[3 * t + 2] == infinity;
    }

    int orient(int a, int b, int c) {
        return orient(xy, a, b, c);
    }

    private static int orient(double[] xy, int a, int b, int c) {
        return Predicates.orient2d(xy[2 * a], xy[2 * a + 1], xy[2 * b], xy[2 * b + 1], xy[2 * c], xy[2 * c + 1]);
    }

    void setTriangle(int t, int a, int b, int c) {
        origin[3 * t] = a;
        origin[3 * t + 1] = b;
        origin[3 * t + 2] = c;
        leaving[a] = 3 * t;
        leaving[b] = 3 * t + 1;
        leaving[c] = 3 * t + 2;
    }

    void link(int h, int g) {
        twin[h] = g;
        twin[g] = h;
    }

    private void insert(int p) {
        int h = locate(p);
        if (onEdge) {
            int g = twin[h];
            // Counter-clockwise around p: the four sides of the two triangles that share the edge.
            int[] sides = {next(g), previous(g), next(h), previous(h)};
            fan(p, sides, g / 3, h / 3);
        } else {
            fan(p, new int[] {h, next(h), previous(h)}, h / 3, -1);
        }
        legalizeAround();
        lastTriangle = finiteTriangleAt(p);
    }

    private int finiteTriangleAt(int p) {
        int h = leaving[p];
        while (isGhost(h / 3)) {
            h = twin[previous(h)];
        }
        return h / 3;
    }

    /** Replaces the triangles inside the closed run of {@code sides} by one triangle a side, all meeting in p. */
    private void fan(int p, int[] sides, int slot0, int slot1) {
        int k = sides.length;
        int[] from = new int[k];
        int[] outer = new int[k];
        int[] slot = new int[k];
        for (int i = 0; i < k; i++) {
            from[i] = origin[sides[i]];
            outer[i] = twin[sides[i]];
            slot[i] = i == 0 ? slot0 : i == 1 && slot1 >= 0 ? slot1 : triangleCount++;
        }
        for (int i = 0; i < k; i++) {
            setTriangle(slot[i], from[i], from[(i + 1) % k], p);
            link(3 * slot[i], outer[i]);
            push(3 * slot[i]);
        }
        for (int i = 0; i < k; i++) {
            link(3 * slot[i] + 1, 3 * slot[(i + 1) % k] + 2);
        }
    }

    /**
     * A half-edge of the triangle that contains p; the very edge if p lies on one (then {@link #onEdge}); the hull edge
     * of a ghost triangle if p lies beyond the hull.
     */
    private int locate(int p) {
        onEdge = false;
        int h = 3 * lastTriangle;
        int entered = -1;
        while (true) {
            int zero = -1;
            int across = -1;
            int zeros = 0;
            for (int i = 0; i < 3 && across < 0; i++, h = next(h)) {
                if (h == entered) {
                    continue;
                }
                int side = orient(origin[h], destination(h), p);
                if (side < 0) {
                    across = h;
                } else if (side == 0) {
                    zero = h;
                    zeros++;
                }
            }
            if (across < 0) {
                if (zeros > 0) {
                    requireNotCorner(p, zero);
                    onEdge = true;
                    return zero;
                }
                return h;
            }
            entered = twin[across];
            h = entered;
            if (apex(entered) == infinity) {
                return entered;
            }
        }
    }

    private void requireNotCorner(int p, int h) {
        requireApart(xy, p, origin[h]);
        requireApart(xy, p, destination(h));
    }

    void push(int h) {
        if (pendingCount == pending.length) {
            pending = Arrays.copyOf(pending, 2 * pendingCount);
        }
        pending[pendingCount++] = h;
    }

    /** Flips pending edges, each opposite a freshly inserted point, until none is illegal. */
    private void legalizeAround() {
        while (pendingCount > 0) {
            int h = pending[--pendingCount];
            if (mustFlip(h)) {
                int g = twin[h];
                flip(h);
                push(h);
                push(next(g));
            }
        }
    }

    /** Flips pending edges wherever they are, leaving segments alone, until all are locally Delaunay. */
    void legalize() {
        while (pendingCount > 0) {
            int h = pending[--pendingCount];
            if (segment[h] == 0 && mustFlip(h)) {
                int g = twin[h];
                flip(h);
                push(h);
                push(next(h));
                push(g);
                push(next(g));
            }
        }
    }

    private boolean mustFlip(int h) {
        int a = origin[h];
        int b = destination(h);
        int p = apex(h);
        int d = apex(twin[h]);
        if (d == infinity || p == infinity) {
            return false;
        }
        if (a == infinity) {
            return orient(d, b, p) > 0;
        }
        if (b == infinity) {
            return orient(a, d, p) > 0;
        }
        return Predicates.inCircle(xy[2 * a], xy[2 * a + 1], xy[2 * b], xy[2 * b + 1], xy[2 * p], xy[2 * p + 1],
                xy[2 * d], xy[2 * d + 1]) > 0;
    }

    /**
     * Turns edge ab of triangles abp and bad into edge pd: {@code h} becomes db, its twin pa, and the half-edges before
     * them the two sides of pd.
     */
    private void flip(int h) {
        int g = twin[h];
        int hPrevious = previous(h);
        int gPrevious = previous(g);
        int p = origin[hPrevious];
        int d = origin[gPrevious];
        int b = origin[g];
        int a = origin[h];
        origin[h] = d;
        origin[g] = p;
        link(h, twin[gPrevious]);
        link(g, twin[hPrevious]);
        link(hPrevious, gPrevious);
        segment[h] = segment[gPrevious];
        segment[g] = segment[hPrevious];
        segment[hPrevious] = 0;
        segment[gPrevious] = 0;
        leaving[d] = h;
        leaving[p] = g;
        leaving[a] = next(g);
        leaving[b] = next(h);
    }
}
