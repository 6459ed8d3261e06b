package layupmold.geometry.simplify;

import java.util.Arrays;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * A two-manifold triangle mesh, with or without boundary, whose edges can be collapsed. Half-edges are numbered as in
 * {@link EdgeTopology}; removed triangles keep their numbers.
 */
final class HalfEdgeMesh {

    /** In place of the first corner of a removed triangle. */
    private static final int REMOVED = -1;

    final double[] xyz;
    private final int[] corner;
    private final int[] twin;
    /** For every vertex a half-edge that leaves it, or -1. */
    private final int[] leaving;

    /** @throws IllegalArgumentException if an edge of {@code mesh} joins more than two triangles */
    HalfEdgeMesh(TriangleMesh mesh) {
        EdgeTopology topology = EdgeTopology.of(mesh);
        if (topology.nonManifoldCount() > 0) {
            throw new IllegalArgumentException("the mesh is not two-manifold");
        }
        xyz = mesh.xyz();
        corner = mesh.triangles().clone();
        twin = new int[corner.length];
        leaving = new int[mesh.vertexCount()];
        Arrays.fill(leaving, -1);
        for (int h = 0; h < corner.length; h++) {
            twin[h] = topology.twin(h);
            leaving[corner[h]] = h;
        }
    }

    int vertexCount() {
        return leaving.length;
    }

    int triangleCount() {
        return corner.length / 3;
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

    private void join(int h, int beyond) {
        twin[h] = beyond;
        if (beyond >= 0) {
            twin[beyond] = h;
        }
    }

    /** Corners of all triangles, by number; of removed ones too. */
    int[] corners() {
        return corner.clone();
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
