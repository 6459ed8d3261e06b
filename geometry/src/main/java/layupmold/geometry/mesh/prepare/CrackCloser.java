package layupmold.geometry.mesh.prepare;

import java.util.Arrays;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.EdgeGroups;
import layupmold.geometry.mesh.EdgeTopology;

/**
 * Closes what only looks joined: vertices on two boundaries that are as good as one, and boundary edges on which
 * another boundary's vertex lies (T-junctions), which get that vertex. Works on boundaries alone, so detail inside a
 * surface is never touched; O(n log n) in the boundary's length.
 */
final class CrackCloser {

    private static final int MOST_PASSES = 8;
    /** With more boundary than this share of all edges, and more than a few, there is no surface to mend. */
    private static final double MOST_BOUNDARY = 0.25;
    private static final int FEW_EDGES = 30_000;
    /** Near a short edge, points closer than this share of it are still apart. */
    private static final double SHARE_OF_EDGE = 0.1;

    private Surface surface;
    private EdgeGroups groups;
    private final Tolerances tolerances;
    /** How many vertices near edges are looked at: bounds the work and the growth where a crowd is beyond reason. */
    private int budget;
    private int joined;
    private int split;
    private int firstPosted = -1;

    /**
     * @param surface without cracks; may have triangles with two equal corners
     * @param joined vertices merged with another
     * @param split edges that got a vertex
     * @param firstPosted posted index of a triangle that was split, or -1
     */
    record Closed(Surface surface, int joined, int split, int firstPosted) {
    }

    private CrackCloser(Surface surface, EdgeGroups groups, Tolerances tolerances) {
        this.surface = surface;
        this.groups = groups;
        this.tolerances = tolerances;
        this.budget = Math.max(100_000, 2 * surface.triangleCount());
    }

    static Closed close(Surface surface, EdgeGroups groups, Tolerances tolerances) {
        return new CrackCloser(surface, groups, tolerances).run();
    }

    private Closed run() {
        int[] boundary = boundary();
        if (boundary.length > 0) {
            joinVertices(boundary);
            for (int pass = 0; pass < MOST_PASSES && splitEdges(boundary()); pass++) {
                groups = EdgeGroups.of(surface.triangles(), surface.vertexCount());
            }
        }
        return new Closed(surface, joined, split, firstPosted);
    }

    private int[] boundary() {
        int[] mate = groups.mate();
        return IntStream.range(0, mate.length).filter(h -> mate[h] == EdgeTopology.BOUNDARY).toArray();
    }

    private int from(int h) {
        return surface.triangles()[h];
    }

    private int to(int h) {
        return surface.triangles()[EdgeTopology.next(h)];
    }

    private int[] vertices(int[] boundary) {
        boolean[] on = new boolean[surface.vertexCount()];
        for (int h : boundary) {
            on[from(h)] = true;
            on[to(h)] = true;
        }
        return IntStream.range(0, on.length).filter(v -> on[v]).toArray();
    }

    /** For each vertex the distance within which others on the boundary are the same. */
    private double[] reach(int[] boundary) {
        double[] reach = new double[surface.vertexCount()];
        Arrays.fill(reach, tolerances.crackMm());
        for (int h : boundary) {
            double limit = Math.max(tolerances.roundingMm(),
                    SHARE_OF_EDGE * Segments.length(surface.xyz(), from(h), to(h)));
            reach[from(h)] = Math.min(reach[from(h)], limit);
            reach[to(h)] = Math.min(reach[to(h)], limit);
        }
        return reach;
    }

    /**
     * The lowest boundary vertex takes all in reach, then the lowest of those left, and so on. Who takes others is out
     * of every other taker's reach, so each vertex is looked at a few times only, however many crowd in a place.
     */
    private void joinVertices(int[] boundary) {
        double[] xyz = surface.xyz();
        int[] vertices = vertices(boundary);
        double[] reach = reach(boundary);
        PointTree tree = new PointTree(xyz, vertices);
        int[] goesTo = new int[surface.vertexCount()];
        Arrays.setAll(goesTo, v -> v);
        for (int v : vertices) {
            if (goesTo[v] != v) {
                continue;
            }
            double[] point = Segments.point(xyz, v);
            for (int w : tree.near(point, point, reach[v], Integer.MAX_VALUE)) {
                if (w > v && goesTo[w] == w && Segments.length(xyz, v, w) <= reach[w]) {
                    goesTo[w] = v;
                    joined++;
                }
            }
        }
        if (joined > 0) {
            int[] triangles = surface.triangles().clone();
            for (int i = 0; i < triangles.length; i++) {
                triangles[i] = goesTo[triangles[i]];
            }
            Surface welded = new Surface(xyz, triangles, surface.posted());
            surface = welded.keeping(TriangleFilter.proper(triangles));
            groups = EdgeGroups.of(surface.triangles(), surface.vertexCount());
        }
    }

    /** Gives boundary edges the vertices that lie on them, one edge of a triangle at a time; false if there are none. */
    private boolean splitEdges(int[] boundary) {
        if (boundary.length > FEW_EDGES && boundary.length > MOST_BOUNDARY * groups.mate().length) {
            return false;
        }
        double[] xyz = surface.xyz();
        PointTree tree = new PointTree(xyz, vertices(boundary));
        double[] reach = reach(boundary);
        int[][] inserts = new int[surface.triangleCount()][];
        int[] edgeOf = new int[surface.triangleCount()];
        int added = 0;
        for (int h : boundary) {
            if (inserts[h / 3] == null) {
                int[] on = verticesOn(h, tree, reach);
                if (on.length > 0) {
                    inserts[h / 3] = on;
                    edgeOf[h / 3] = h;
                    added += on.length;
                }
            }
        }
        if (added > 0) {
            split += added;
            rebuild(inserts, edgeOf, added);
        }
        return added > 0;
    }

    private int[] verticesOn(int h, PointTree tree, double[] reach) {
        double[] xyz = surface.xyz();
        double[] a = Segments.point(xyz, from(h));
        double[] b = Segments.point(xyz, to(h));
        double length = Segments.length(xyz, from(h), to(h));
        double margin = tolerances.crackMm() / length;
        int apex = surface.triangles()[EdgeTopology.previous(h)];
        int[] near = tree.near(a, b, tolerances.crackMm(), budget);
        budget -= near.length;
        return IntStream.of(near)
                .filter(v -> v != apex && v != from(h) && v != to(h))
                .filter(v -> Segments.distance(xyz, v, a, b) <= reach[v])
                .filter(v -> Segments.parameter(xyz, v, a, b) > margin
                        && Segments.parameter(xyz, v, a, b) < 1 - margin)
                .boxed()
                .sorted((v, w) -> Double.compare(Segments.parameter(xyz, v, a, b), Segments.parameter(xyz, w, a, b)))
                .mapToInt(v -> v).toArray();
    }

    private void rebuild(int[][] inserts, int[] edgeOf, int added) {
        int[] before = surface.triangles();
        int[] triangles = Arrays.copyOf(before, before.length + 3 * added);
        int[] posted = Arrays.copyOf(surface.posted(), surface.triangleCount() + added);
        int at = surface.triangleCount();
        for (int t = 0; t < inserts.length; t++) {
            if (inserts[t] == null) {
                continue;
            }
            firstPosted = firstPosted < 0 ? surface.posted()[t] : firstPosted;
            int h = edgeOf[t];
            int apex = before[EdgeTopology.previous(h)];
            int last = to(h);
            triangles[EdgeTopology.next(h)] = inserts[t][0];
            for (int i = 0; i < inserts[t].length; i++) {
                triangles[3 * at] = inserts[t][i];
                triangles[3 * at + 1] = i + 1 < inserts[t].length ? inserts[t][i + 1] : last;
                triangles[3 * at + 2] = apex;
                posted[at++] = surface.posted()[t];
            }
        }
        surface = new Surface(surface.xyz(), triangles, posted);
    }
}
