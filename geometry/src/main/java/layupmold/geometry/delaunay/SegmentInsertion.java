package layupmold.geometry.delaunay;

import java.util.Arrays;
import layupmold.geometry.delaunay.PlanarGraphException.Kind;

/**
 * Forces segments into a {@link DelaunayMesh}. The triangles a segment crosses are removed; the gap on either side is a
 * polygon all of whose corners see the segment, so one pass with a stack triangulates it in linear time (Toussaint,
 * Avis: "On a convex hull algorithm for polygons and its application to triangulation problems", 1982), even where the
 * gap's outline touches itself. Flips then restore the constrained Delaunay property.
 */
final class SegmentInsertion {

    /** One side of the gap: corners from the segment's start to its end and the half-edges that joined them. */
    private static final class Chain {
        int[] corner = new int[16];
        /** Half-edge inside the gap from corner i + 1 to corner i (left) or the reverse (right). */
        int[] inner = new int[16];
        int size;

        void start(int vertex) {
            size = 1;
            corner[0] = vertex;
        }

        void add(int vertex, int innerHalfEdge) {
            if (size == corner.length) {
                corner = Arrays.copyOf(corner, 2 * size);
                inner = Arrays.copyOf(inner, 2 * size);
            }
            inner[size - 1] = innerHalfEdge;
            corner[size++] = vertex;
        }

        void reverse() {
            for (int i = 0, j = size - 1; i < j; i++, j--) {
                int swap = corner[i];
                corner[i] = corner[j];
                corner[j] = swap;
            }
            for (int i = 0, j = size - 2; i < j; i++, j--) {
                int swap = inner[i];
                inner[i] = inner[j];
                inner[j] = swap;
            }
        }
    }

    private final DelaunayMesh mesh;
    private final Chain left = new Chain();
    private final Chain right = new Chain();
    private final int[] chainEdgeOf;
    private int[] removed = new int[16];
    private int removedCount;
    private int reused;
    /** By chain edge: the half-edge outside the gap, or the complement of the chain edge on its other side. */
    private int[] outer = new int[0];
    private int[] outerSegment = new int[0];
    private int[] placed = new int[0];

    SegmentInsertion(DelaunayMesh mesh) {
        this.mesh = mesh;
        this.chainEdgeOf = new int[mesh.halfEdgeCount()];
    }

    /**
     * Makes segment {@code index} from vertex a to vertex b an edge that no later flip removes.
     *
     * @throws PlanarGraphException if it crosses or repeats another, runs through a point, or has no length
     */
    void insert(int index, int a, int b, boolean repeatsAllowed) {
        if (a == b) {
            throw new PlanarGraphException(Kind.NO_LENGTH, index, -1,
                    "segment " + index + " begins and ends in point " + a);
        }
        int first = mesh.leaving[a];
        int h = first;
        do {
            int x = mesh.destination(h);
            if (x == b) {
                mark(index, h, repeatsAllowed);
                return;
            }
            if (x != mesh.infinity && startsThrough(index, a, b, h, x)) {
                cut(index, a, b, h);
                return;
            }
            h = mesh.twin[DelaunayMesh.previous(h)];
        } while (h != first);
        throw new IllegalStateException("segment " + index + " leaves the triangulation");
    }

    private void mark(int index, int h, boolean repeatsAllowed) {
        int other = mesh.segment[h];
        if (other != 0) {
            if (repeatsAllowed) {
                return;
            }
            throw new PlanarGraphException(Kind.REPEATED_SEGMENT, index, other - 1,
                    "segments " + index + " and " + (other - 1) + " join the same points");
        }
        mesh.segment[h] = index + 1;
        mesh.segment[mesh.twin[h]] = index + 1;
    }

    /** True if ab leaves a through the far side of h's triangle; h runs from a to x. */
    private boolean startsThrough(int index, int a, int b, int h, int x) {
        int fromX = mesh.orient(a, x, b);
        if (fromX == 0 && sameDirection(a, b, x)) {
            throw throughPoint(index, x);
        }
        int y = mesh.apex(h);
        return fromX > 0 && y != mesh.infinity && mesh.orient(a, y, b) < 0;
    }

    private boolean sameDirection(int a, int b, int x) {
        double[] xy = mesh.xy;
        return Math.signum(xy[2 * b] - xy[2 * a]) == Math.signum(xy[2 * x] - xy[2 * a])
                && Math.signum(xy[2 * b + 1] - xy[2 * a + 1]) == Math.signum(xy[2 * x + 1] - xy[2 * a + 1]);
    }

    private static PlanarGraphException throughPoint(int index, int point) {
        return new PlanarGraphException(Kind.THROUGH_POINT, index, point,
                "segment " + index + " runs through point " + point);
    }

    private void cut(int index, int a, int b, int h) {
        collect(index, a, b, h);
        right.reverse();
        recordOutside();
        reused = 0;
        int ab = fill(left, 0);
        int ba = fill(right, left.size - 1);
        mesh.link(ab, ba);
        mesh.segment[ab] = index + 1;
        mesh.segment[ba] = index + 1;
        for (int i = 0; i < removedCount; i++) {
            for (int k = 0; k < 3; k++) {
                mesh.push(3 * removed[i] + k);
            }
        }
        mesh.legalize();
    }

    /** Walks from a to b, noting the triangles crossed and the outline of the gap they leave. */
    private void collect(int index, int a, int b, int h) {
        removedCount = 0;
        remove(h / 3);
        left.start(a);
        right.start(a);
        left.add(mesh.apex(h), DelaunayMesh.previous(h));
        right.add(mesh.destination(h), h);
        int crossed = DelaunayMesh.next(h);
        while (true) {
            if (mesh.segment[crossed] != 0) {
                int other = mesh.segment[crossed] - 1;
                throw new PlanarGraphException(Kind.CROSSING, index, other,
                        "segments " + index + " and " + other + " cross");
            }
            int g = mesh.twin[crossed];
            int apex = mesh.apex(g);
            remove(g / 3);
            if (apex == b) {
                left.add(b, DelaunayMesh.previous(g));
                right.add(b, DelaunayMesh.next(g));
                return;
            }
            int side = mesh.orient(a, b, apex);
            if (side == 0) {
                throw throughPoint(index, apex);
            }
            if (side > 0) {
                left.add(apex, DelaunayMesh.previous(g));
                crossed = DelaunayMesh.next(g);
            } else {
                right.add(apex, DelaunayMesh.next(g));
                crossed = DelaunayMesh.previous(g);
            }
        }
    }

    private void remove(int t) {
        if (removedCount == removed.length) {
            removed = Arrays.copyOf(removed, 2 * removedCount);
        }
        removed[removedCount++] = t;
    }

    private void recordOutside() {
        int leftEdges = left.size - 1;
        int edges = leftEdges + right.size - 1;
        if (outer.length < edges) {
            outer = new int[2 * edges];
            outerSegment = new int[2 * edges];
            placed = new int[2 * edges];
        }
        for (int i = 0; i < edges; i++) {
            chainEdgeOf[inner(i, leftEdges)] = i + 1;
        }
        for (int i = 0; i < edges; i++) {
            int h = inner(i, leftEdges);
            int other = chainEdgeOf[mesh.twin[h]];
            outer[i] = other == 0 ? mesh.twin[h] : -other;
            outerSegment[i] = mesh.segment[h];
            placed[i] = -1;
        }
        for (int i = 0; i < edges; i++) {
            chainEdgeOf[inner(i, leftEdges)] = 0;
        }
    }

    private int inner(int edge, int leftEdges) {
        return edge < leftEdges ? left.inner[edge] : right.inner[edge - leftEdges];
    }

    /** Triangulates the gap to the left of the line from the chain's first to its last corner; returns that line. */
    private int fill(Chain chain, int firstEdge) {
        int[] corner = chain.corner;
        // above[i] is what lies beyond the edge between stacked corners i and i + 1: a half-edge built here, or the
        // complement of a chain edge. The stack overwrites the consumed part of the chain.
        int[] above = chain.inner;
        int top = 0;
        for (int i = 1; i < chain.size; i++) {
            int v = corner[i];
            int last = ~(firstEdge + i - 1);
            while (top > 0 && mesh.orient(corner[top - 1], corner[top], v) < 0) {
                last = ear(corner[top - 1], v, corner[top], last, above[top - 1]);
                top--;
            }
            above[top] = last;
            corner[++top] = v;
        }
        if (top != 1) {
            throw new IllegalStateException("a gap beside a segment could not be filled");
        }
        return above[0];
    }

    private int ear(int u, int v, int w, int aboveVw, int aboveWu) {
        int t = removed[reused++];
        mesh.setTriangle(t, u, v, w);
        mesh.segment[3 * t] = 0;
        join(3 * t + 1, aboveVw);
        join(3 * t + 2, aboveWu);
        return 3 * t;
    }

    private void join(int h, int beyond) {
        if (beyond >= 0) {
            mesh.link(h, beyond);
            mesh.segment[h] = 0;
            return;
        }
        int edge = ~beyond;
        mesh.segment[h] = outerSegment[edge];
        placed[edge] = h;
        if (outer[edge] >= 0) {
            mesh.link(h, outer[edge]);
        } else if (placed[-outer[edge] - 1] >= 0) {
            mesh.link(h, placed[-outer[edge] - 1]);
        }
    }
}
