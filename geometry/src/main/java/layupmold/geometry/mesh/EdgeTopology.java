package layupmold.geometry.mesh;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;

/**
 * Who is whose neighbour across an edge, built once a mesh in O(n log n).
 *
 * <p>Half-edge {@code h = 3t + i} runs from corner {@code i} of triangle {@code t} to the next corner. A half-edge has
 * a twin when exactly one other triangle uses the same edge in the opposite direction; otherwise it is boundary (used
 * once) or non-manifold (used three times or more, or twice in the same direction).
 */
public final class EdgeTopology {

    /** {@link #twin} of a half-edge on the mesh's boundary. */
    public static final int BOUNDARY = -1;
    /** {@link #twin} of a half-edge whose edge is shared by more than two triangles or by two that disagree. */
    public static final int NON_MANIFOLD = -2;

    private final int[] triangles;
    private final int[] twin;
    private final int boundaryCount;
    private final int nonManifoldCount;

    private EdgeTopology(int[] triangles, int[] twin) {
        this.triangles = triangles;
        this.twin = twin;
        int boundary = 0;
        int nonManifold = 0;
        for (int h : twin) {
            if (h == BOUNDARY) {
                boundary++;
            } else if (h == NON_MANIFOLD) {
                nonManifold++;
            }
        }
        this.boundaryCount = boundary;
        this.nonManifoldCount = nonManifold;
    }

    /** Pairs the half-edges of {@code mesh}; see {@link EdgeGroups}. */
    public static EdgeTopology of(TriangleMesh mesh) {
        int[] triangles = mesh.triangles();
        int[] twin = EdgeGroups.of(triangles, mesh.vertexCount()).mate();
        for (int h = 0; h < twin.length; h++) {
            int g = twin[h];
            if (g >= 0 && triangles[g] == triangles[h]) {
                twin[h] = NON_MANIFOLD;
                twin[g] = NON_MANIFOLD;
            }
        }
        return new EdgeTopology(triangles, twin);
    }

    /** The half-edge after {@code h} in its triangle. */
    public static int next(int h) {
        return h % 3 == 2 ? h - 2 : h + 1;
    }

    /** The half-edge before {@code h} in its triangle. */
    public static int previous(int h) {
        return h % 3 == 0 ? h + 2 : h - 1;
    }

    /** The half-edge on the other side, or {@link #BOUNDARY} or {@link #NON_MANIFOLD}. */
    public int twin(int h) {
        return twin[h];
    }

    /** Vertex that half-edge {@code h} leaves. */
    public int from(int h) {
        return triangles[h];
    }

    /** Vertex that half-edge {@code h} reaches. */
    public int to(int h) {
        return triangles[next(h)];
    }

    public int halfEdgeCount() {
        return twin.length;
    }

    /** For each of the mesh's vertices whether an edge without a twin ends there; O(n). */
    public boolean[] borderVertices(int vertexCount) {
        boolean[] border = new boolean[vertexCount];
        for (int h = 0; h < twin.length; h++) {
            if (twin[h] < 0) {
                border[from(h)] = true;
                border[to(h)] = true;
            }
        }
        return border;
    }

    /**
     * For each of the mesh's vertices a half-edge that leaves it, or -1; on the border the one from which a walk over
     * {@code twin(previous(h))} sees all of its triangles. O(n).
     */
    public int[] leaving(int vertexCount) {
        int[] leaving = new int[vertexCount];
        Arrays.fill(leaving, -1);
        for (int h = 0; h < twin.length; h++) {
            if (leaving[from(h)] < 0 || twin[h] < 0) {
                leaving[from(h)] = h;
            }
        }
        return leaving;
    }

    /** Number of half-edges with no partner. */
    public int boundaryCount() {
        return boundaryCount;
    }

    /** Number of half-edges on edges that are not two-manifold and oriented. */
    public int nonManifoldCount() {
        return nonManifoldCount;
    }

    /** True if every edge joins exactly two triangles that agree in orientation. */
    public boolean isClosedAndOriented() {
        return boundaryCount == 0 && nonManifoldCount == 0;
    }

    /**
     * The boundary as closed loops of half-edges, each with the mesh on its left, found by walking around vertices so
     * that loops touching in one vertex stay apart. Loops are ordered by their lowest half-edge; O(n).
     *
     * <p>Half-edges next to a non-manifold edge may not close into a loop; they are left out.
     */
    public List<int[]> boundaryLoops() {
        List<int[]> loops = new ArrayList<>();
        boolean[] seen = new boolean[twin.length];
        for (int h = 0; h < twin.length; h++) {
            if (twin[h] == BOUNDARY && !seen[h]) {
                int[] loop = walkLoop(h, seen);
                if (loop.length > 0) {
                    loops.add(loop);
                }
            }
        }
        return loops;
    }

    private int[] walkLoop(int first, boolean[] seen) {
        int[] loop = new int[16];
        int size = 0;
        int h = first;
        do {
            if (seen[h]) {
                return new int[0];
            }
            seen[h] = true;
            if (size == loop.length) {
                loop = Arrays.copyOf(loop, 2 * size);
            }
            loop[size++] = h;
            h = nextOnBoundary(h);
        } while (h != first && h >= 0);
        return h == first ? Arrays.copyOf(loop, size) : new int[0];
    }

    /** Turns around the end vertex of boundary half-edge {@code h} until the next boundary half-edge. */
    private int nextOnBoundary(int h) {
        int g = next(h);
        while (twin[g] >= 0) {
            g = next(twin[g]);
        }
        return twin[g] == BOUNDARY ? g : NON_MANIFOLD;
    }

    /**
     * Vertices whose triangles do not form one fan or one disc: two or more fans meet in the point.
     *
     * @return ascending vertex indices; O(n)
     */
    public int[] nonManifoldVertices(int vertexCount) {
        boolean[] seen = new boolean[twin.length];
        int[] fans = new int[vertexCount];
        for (int h = 0; h < twin.length; h++) {
            if (!seen[h]) {
                fans[triangles[h]]++;
                markFan(h, seen);
            }
        }
        int count = 0;
        for (int fan : fans) {
            if (fan > 1) {
                count++;
            }
        }
        int[] result = new int[count];
        for (int v = 0, i = 0; v < vertexCount; v++) {
            if (fans[v] > 1) {
                result[i++] = v;
            }
        }
        return result;
    }

    private void markFan(int first, boolean[] seen) {
        int h = first;
        while (h >= 0 && !seen[h]) {
            seen[h] = true;
            h = twin[previous(h)];
        }
        h = twin[first] >= 0 ? next(twin[first]) : twin[first];
        while (h >= 0 && !seen[h]) {
            seen[h] = true;
            h = twin[h] >= 0 ? next(twin[h]) : twin[h];
        }
    }
}
