package layupmold.geometry.simplify;

import java.util.Arrays;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * A two-manifold triangle mesh, with or without boundary, whose edges can be collapsed, flipped and split. Half-edges are
 * numbered as in {@link EdgeTopology}; removed triangles keep their numbers, new ones come last.
 */
final class HalfEdgeMesh {

    /** In place of the first corner of a removed triangle. */
    private static final int REMOVED = -1;

    /** Has room for more than {@link #vertexCount} vertices. */
    double[] xyz;
    private int[] corner;
    private int[] twin;
    /** For every vertex a half-edge that leaves it, or -1. */
    private int[] leaving;
    private int vertexCount;
    private int triangleCount;

    /** @throws IllegalArgumentException if an edge of {@code mesh} joins more than two triangles */
    HalfEdgeMesh(TriangleMesh mesh) {
        EdgeTopology topology = EdgeTopology.of(mesh);
        if (topology.nonManifoldCount() > 0) {
            throw new IllegalArgumentException("the mesh is not two-manifold");
        }
        xyz = mesh.xyz();
        corner = mesh.triangles().clone();
        twin = new int[corner.length];
        vertexCount = mesh.vertexCount();
        triangleCount = mesh.triangleCount();
        leaving = new int[vertexCount];
        Arrays.fill(leaving, -1);
        for (int h = 0; h < corner.length; h++) {
            twin[h] = topology.twin(h);
            leaving[corner[h]] = h;
        }
    }

    int vertexCount() {
        return vertexCount;
    }

    int triangleCount() {
        return triangleCount;
    }

    boolean isRemoved(int triangle) {
        return corner[3 * triangle] == REMOVED;
    }

    int from(int h) {
        return corner[h];
    }

    int to(int h) {
        return corner[EdgeTopology.next(h)];
    }

    /** Corner of the triangle of {@code h} that the half-edge does not touch. */
    int apex(int h) {
        return corner[EdgeTopology.previous(h)];
    }

    int twin(int h) {
        return twin[h];
    }

    /** Of the straight line between two vertices, mm². */
    double squaredLength(int u, int v) {
        double sum = 0;
        for (int k = 0; k < 3; k++) {
            double d = xyz[3 * u + k] - xyz[3 * v + k];
            sum += d * d;
        }
        return sum;
    }

    /** The half-edges that leave {@code v}, counter-clockwise, written to {@code fan}; their number. */
    int fan(int v, Fan fan) {
        fan.size = 0;
        fan.onBoundary = false;
        int start = leaving[v];
        if (start < 0) {
            return 0;
        }
        int h = start;
        // Back to the first of an open fan.
        while (twin[h] >= 0) {
            h = EdgeTopology.next(twin[h]);
            if (h == start) {
                break;
            }
        }
        fan.onBoundary = twin[h] < 0;
        int first = h;
        do {
            fan.add(h);
            h = twin[EdgeTopology.previous(h)];
        } while (h >= 0 && h != first);
        return fan.size;
    }

    /** The half-edges around a vertex; scratch. */
    static final class Fan {
        int[] halfEdges = new int[32];
        int size;
        boolean onBoundary;

        /** The triangle of each. */
        int[] triangles() {
            return IntStream.range(0, size).map(i -> halfEdges[i] / 3).toArray();
        }

        private void add(int h) {
            if (size == halfEdges.length) {
                halfEdges = Arrays.copyOf(halfEdges, 2 * size);
            }
            halfEdges[size++] = h;
        }
    }

    /**
     * Moves the start of {@code h} into its end and removes the triangles between. The caller has made sure that the
     * mesh stays manifold.
     *
     * @param fan the fan of the start
     */
    void collapse(int h, Fan fan) {
        int u = corner[h];
        int v = to(h);
        for (int i = 0; i < fan.size; i++) {
            corner[fan.halfEdges[i]] = v;
        }
        int across = twin[h];
        leaving[u] = -1;
        leaving[v] = -1;
        remove(h, v);
        if (across >= 0) {
            remove(across, v);
        }
    }

    /** Takes out the triangle of {@code h}, one of whose ends is {@code v}, and joins what was beyond its other sides. */
    private void remove(int h, int v) {
        int next = EdgeTopology.next(h);
        int previous = EdgeTopology.previous(h);
        int a = corner[previous];
        int beyondNext = twin[next];
        int beyondPrevious = twin[previous];
        if (beyondNext >= 0) {
            twin[beyondNext] = beyondPrevious;
        }
        if (beyondPrevious >= 0) {
            twin[beyondPrevious] = beyondNext;
        }
        // The one beyond "next" runs from a to v, the one beyond "previous" from v to a.
        leaving[a] = beyondNext >= 0 ? beyondNext : beyondPrevious >= 0 ? EdgeTopology.next(beyondPrevious) : -1;
        if (beyondPrevious >= 0) {
            leaving[v] = beyondPrevious;
        } else if (beyondNext >= 0) {
            leaving[v] = EdgeTopology.next(beyondNext);
        }
        int t = h / 3;
        corner[3 * t] = REMOVED;
        corner[3 * t + 1] = REMOVED;
        corner[3 * t + 2] = REMOVED;
    }

    /**
     * Replaces the inner edge of {@code h} by the one between the apexes on its two sides. The caller has made sure
     * that these are not joined yet.
     */
    void flip(int h) {
        int g = twin[h];
        int hNext = EdgeTopology.next(h);
        int hPrevious = EdgeTopology.previous(h);
        int gNext = EdgeTopology.next(g);
        int gPrevious = EdgeTopology.previous(g);
        int u = corner[h];
        int v = corner[g];
        int a = corner[hPrevious];
        int b = corner[gPrevious];
        int beyondVA = twin[hNext];
        int beyondUB = twin[gNext];
        // Triangle of h becomes (u, b, a) with h from b to a; that of g becomes (v, a, b) with g from a to b.
        corner[h] = b;
        corner[hNext] = a;
        corner[hPrevious] = u;
        corner[g] = a;
        corner[gNext] = b;
        corner[gPrevious] = v;
        int beyondAU = twin[hPrevious];
        int beyondBV = twin[gPrevious];
        join(hNext, beyondAU);
        join(hPrevious, beyondUB);
        join(gNext, beyondBV);
        join(gPrevious, beyondVA);
        leaving[u] = hPrevious;
        leaving[v] = gPrevious;
        leaving[a] = hNext;
        leaving[b] = gNext;
    }

    /** A new vertex that no triangle has yet. */
    int addVertex(double x, double y, double z) {
        if (vertexCount == leaving.length) {
            xyz = Arrays.copyOf(xyz, 3 * (vertexCount + vertexCount / 2 + 16));
            leaving = Arrays.copyOf(leaving, xyz.length / 3);
        }
        xyz[3 * vertexCount] = x;
        xyz[3 * vertexCount + 1] = y;
        xyz[3 * vertexCount + 2] = z;
        leaving[vertexCount] = -1;
        return vertexCount++;
    }

    /** Takes back the vertex added last, which no triangle has. */
    void dropLastVertex() {
        vertexCount--;
    }

    private int addTriangle(int a, int b, int c) {
        int t = triangleCount++;
        if (3 * triangleCount > corner.length) {
            corner = Arrays.copyOf(corner, 3 * (triangleCount + triangleCount / 2));
            twin = Arrays.copyOf(twin, corner.length);
        }
        corner[3 * t] = a;
        corner[3 * t + 1] = b;
        corner[3 * t + 2] = c;
        return t;
    }

    /**
     * Splits the inner edge of {@code h} at vertex {@code v}, which is new. The triangles of {@code h} and of its twin
     * keep the part at the starts of these; the two added are the parts at their ends, the one beside {@code h} first.
     */
    void splitEdge(int h, int v) {
        int g = twin[h];
        int hNext = EdgeTopology.next(h);
        int gNext = EdgeTopology.next(g);
        int u = corner[h];
        int w = corner[g];
        int s = 3 * addTriangle(v, w, apex(h));
        int r = 3 * addTriangle(v, u, apex(g));
        join(s + 1, twin[hNext]);
        join(r + 1, twin[gNext]);
        corner[hNext] = v;
        corner[gNext] = v;
        join(hNext, s + 2);
        join(gNext, r + 2);
        join(h, r);
        join(g, s);
        leaving[v] = s;
        leaving[u] = h;
        leaving[w] = g;
    }

    /** Splits triangle {@code t} in three at vertex {@code v}, which is new; {@code t} keeps its first side. */
    void splitTriangle(int t, int v) {
        int b = corner[3 * t + 1];
        int c = corner[3 * t + 2];
        int s = 3 * addTriangle(b, c, v);
        int r = 3 * addTriangle(c, corner[3 * t], v);
        join(s, twin[3 * t + 1]);
        join(r, twin[3 * t + 2]);
        corner[3 * t + 2] = v;
        join(3 * t + 1, s + 2);
        join(3 * t + 2, r + 1);
        join(s + 1, r + 2);
        leaving[v] = 3 * t + 2;
        leaving[c] = r;
    }

    private void join(int h, int beyond) {
        twin[h] = beyond;
        if (beyond >= 0) {
            twin[beyond] = h;
        }
    }

    /** Corners of all triangles, by number; of removed ones too. */
    int[] corners() {
        return Arrays.copyOf(corner, 3 * triangleCount);
    }

    /** Triangles that have not been removed, ascending. */
    int[] remainingTriangles() {
        return IntStream.range(0, triangleCount()).filter(t -> !isRemoved(t)).toArray();
    }

    /** The given triangles as a mesh of their own. */
    TriangleMesh compact(int[] triangles) {
        int[] index = new int[vertexCount()];
        Arrays.fill(index, -1);
        int[] corners = new int[3 * triangles.length];
        int used = 0;
        for (int i = 0; i < corners.length; i++) {
            int v = corner[3 * triangles[i / 3] + i % 3];
            if (index[v] < 0) {
                index[v] = used++;
            }
            corners[i] = index[v];
        }
        double[] left = new double[3 * used];
        for (int v = 0; v < index.length; v++) {
            if (index[v] >= 0) {
                System.arraycopy(xyz, 3 * v, left, 3 * index[v], 3);
            }
        }
        return new TriangleMesh(left, corners);
    }
}
