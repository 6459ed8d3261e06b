package layupmold.geometry.delaunay;

import java.util.Arrays;
import layupmold.geometry.delaunay.PlanarGraphException.Kind;

/**
 * Constrained Delaunay triangulation of a plane straight-line graph: of all triangulations that contain the given
 * segments, the one whose triangles' circles hold no point visible from inside (Chew 1989).
 *
 * <p>Decisions rest on exact predicates, so collinear and cocircular input is safe and the result always is a
 * triangulation. No point is added or moved. Triangles are counter-clockwise; same input, same output. Expected
 * O(n log n) for the points; a segment costs about the triangles it crosses.
 *
 * <p>Points are {@code x, y} pairs; fewer than 2^27.
 */
public final class ConstrainedDelaunay {

    private ConstrainedDelaunay() {
    }

    /**
     * Triangulates the area inside closed rings: points from which a ray crosses the rings an odd number of times, so
     * holes, and islands in holes, may be given in any order and direction. Rings may share single corners. Only
     * corners of rings become corners of triangles.
     *
     * @param rings corners of each ring, the last not repeating the first
     * @return corner indices, three a triangle
     * @throws PlanarGraphException if ring edges cross, overlap, run through corners, or corners coincide; segment
     *     numbers count the rings' edges in order, edge i of a ring running from its corner i to the next
     */
    public static int[] polygon(double[] xy, int[][] rings) {
        return polygon(xy, rings, new int[0]);
    }

    /**
     * As {@link #polygon(double[], int[][])}, with further points to use as corners; those outside the rings are used
     * up without effect on the inside.
     */
    public static int[] polygon(double[] xy, int[][] rings, int[] extraPoints) {
        return polygon(xy, rings, extraPoints, new int[0]);
    }

    /**
     * As {@link #polygon(double[], int[][], int[])}, with further edges, which bound nothing.
     *
     * @param links pairs of the rings' corners or extra points; numbered after the rings' edges
     */
    public static int[] polygon(double[] xy, int[][] rings, int[] extraPoints, int[] links) {
        int[] bounding = ringSegments(rings);
        int[] segments = Arrays.copyOf(bounding, bounding.length + links.length);
        System.arraycopy(links, 0, segments, bounding.length, links.length);
        DelaunayMesh mesh = DelaunayMesh.of(xy, used(xy.length / 2, segments, extraPoints));
        if (mesh == null) {
            throw new PlanarGraphException(Kind.NO_AREA, -1, -1, "all points of the polygon lie on one line");
        }
        insertAll(mesh, segments, false);
        return inside(mesh, bounding.length / 2);
    }

    /**
     * Triangulates the convex hull of all points so that every segment is an edge.
     *
     * @param segments point index pairs; the same pair may occur more than once
     * @return corner indices, three a triangle; empty if all points lie on one line
     * @throws PlanarGraphException if segments cross or run through points, or points coincide
     */
    public static int[] graph(double[] xy, int[] segments) {
        int[] all = new int[xy.length / 2];
        Arrays.setAll(all, i -> i);
        DelaunayMesh mesh = DelaunayMesh.of(xy, all);
        if (mesh == null) {
            return new int[0];
        }
        insertAll(mesh, segments, true);
        boolean[] keep = new boolean[mesh.halfEdgeCount() / 3];
        for (int t = 0; t < keep.length; t++) {
            keep[t] = !mesh.isGhost(t);
        }
        return gather(mesh, keep);
    }

    private static int[] ringSegments(int[][] rings) {
        int count = 0;
        for (int[] ring : rings) {
            count += ring.length;
        }
        int[] segments = new int[2 * count];
        int i = 0;
        for (int[] ring : rings) {
            for (int k = 0; k < ring.length; k++) {
                segments[i++] = ring[k];
                segments[i++] = ring[(k + 1) % ring.length];
            }
        }
        return segments;
    }

    private static int[] used(int pointCount, int[] segments, int[] extraPoints) {
        boolean[] isUsed = new boolean[pointCount];
        for (int p : segments) {
            isUsed[p] = true;
        }
        for (int p : extraPoints) {
            isUsed[p] = true;
        }
        int[] points = new int[pointCount];
        int n = 0;
        for (int p = 0; p < pointCount; p++) {
            if (isUsed[p]) {
                points[n++] = p;
            }
        }
        return Arrays.copyOf(points, n);
    }

    private static void insertAll(DelaunayMesh mesh, int[] segments, boolean repeatsAllowed) {
        SegmentInsertion insertion = new SegmentInsertion(mesh);
        for (int i = 0; 2 * i < segments.length; i++) {
            insertion.insert(i, segments[2 * i], segments[2 * i + 1], repeatsAllowed);
        }
    }

    /** Floods from outside; each of the first {@code bounding} segments crossed changes sides. */
    private static int[] inside(DelaunayMesh mesh, int bounding) {
        int count = mesh.halfEdgeCount() / 3;
        boolean[] isInside = new boolean[count];
        boolean[] seen = new boolean[count];
        int[] queue = new int[count];
        int tail = 0;
        int start = 0;
        while (!mesh.isGhost(start)) {
            start++;
        }
        queue[tail++] = start;
        seen[start] = true;
        for (int head = 0; head < tail; head++) {
            int t = queue[head];
            for (int h = 3 * t; h < 3 * t + 3; h++) {
                int u = mesh.twin[h] / 3;
                if (!seen[u]) {
                    seen[u] = true;
                    isInside[u] = isInside[t] ^ (mesh.segment[h] != 0 && mesh.segment[h] <= bounding);
                    queue[tail++] = u;
                }
            }
        }
        return gather(mesh, isInside);
    }

    private static int[] gather(DelaunayMesh mesh, boolean[] keep) {
        int n = 0;
        for (boolean k : keep) {
            n += k ? 3 : 0;
        }
        int[] triangles = new int[n];
        int i = 0;
        for (int t = 0; t < keep.length; t++) {
            if (keep[t]) {
                System.arraycopy(mesh.origin, 3 * t, triangles, i, 3);
                i += 3;
            }
        }
        return triangles;
    }
}
