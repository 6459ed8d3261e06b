package layupmold.geometry.offset.trim;

import com.carrotsearch.hppc.DoubleArrayList;
import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.LongIntHashMap;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.Planes;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.predicates.Predicates;

/**
 * Where the triangles of a surface cross each other: the points in which edges pierce triangles and in which three
 * triangles meet, and the segments between them. Each point and segment exists once, whatever triangles share it, so
 * that pieces cut along them fit together.
 *
 * <p>Which edge pierces which triangle is decided exactly; coordinates of the points are rounded. O(n log n + k) for
 * k crossing pairs, and k² in a triangle that k others cross.
 */
final class Arrangement {

    private static final int PAIR_LIMIT = 1 << 20;

    /** Where two triangles meet. */
    static final class Segment {
        final int first;
        final int second;
        final int from;
        final int to;
        /** Nodes between its ends, and where along it, from 0 to 1. */
        final IntArrayList nodes = new IntArrayList(0);
        final DoubleArrayList places = new DoubleArrayList(0);

        Segment(int first, int second, int from, int to) {
            this.first = first;
            this.second = second;
            this.from = from;
            this.to = to;
        }

        int other(int triangle) {
            return triangle == first ? second : first;
        }

        void insert(int node, double place) {
            int at = 0;
            while (at < places.size() && places.get(at) < place) {
                at++;
            }
            nodes.insert(at, node);
            places.insert(at, place);
        }
    }

    final TriangleMesh mesh;
    final EdgeTopology topology;
    /** Coordinates of the mesh's vertices, then of the points. */
    final DoubleArrayList xyz;
    /** Segments of each triangle; null for none. */
    final List<Segment>[] segments;
    /** Points on each edge, by the edge's lower half-edge. */
    private final LongIntHashMap piercings = new LongIntHashMap();
    private final IntArrayList[] edgeNodes;

    @SuppressWarnings("unchecked")
    private Arrangement(TriangleMesh mesh) {
        this.mesh = mesh;
        this.topology = EdgeTopology.of(mesh);
        this.xyz = DoubleArrayList.from(mesh.xyz());
        this.segments = new List[mesh.triangleCount()];
        this.edgeNodes = new IntArrayList[3 * mesh.triangleCount()];
    }

    /**
     * @param mesh in general position: no vertex on the plane of a triangle near it
     * @throws TrimException if it is not
     */
    static Arrangement of(TriangleMesh mesh) {
        Arrangement arrangement = new Arrangement(mesh);
        int[] pairs = SelfIntersections.find(mesh, PAIR_LIMIT);
        for (int i = 0; i < pairs.length; i += 2) {
            arrangement.cross(pairs[i], pairs[i + 1]);
        }
        new TriplePoints(arrangement).insert();
        return arrangement;
    }

    int nodeCount() {
        return xyz.size() / 3;
    }

    int addNode(double x, double y, double z) {
        xyz.add(x);
        xyz.add(y);
        xyz.add(z);
        return xyz.size() / 3 - 1;
    }

    /** Points on the edge of half-edge {@code h} in the order from its start to its end. */
    int[] nodesAlong(int h) {
        int edge = edge(h);
        IntArrayList nodes = edgeNodes[edge];
        if (nodes == null) {
            return new int[0];
        }
        int v = topology.from(h);
        return Arrays.stream(nodes.toArray()).boxed()
                .sorted(Comparator.<Integer>comparingDouble(node -> squaredDistance(v, node)).thenComparing(n -> n))
                .mapToInt(node -> node).toArray();
    }

    private double squaredDistance(int a, int b) {
        double dx = xyz.get(3 * a) - xyz.get(3 * b);
        double dy = xyz.get(3 * a + 1) - xyz.get(3 * b + 1);
        double dz = xyz.get(3 * a + 2) - xyz.get(3 * b + 2);
        return dx * dx + dy * dy + dz * dz;
    }

    private int edge(int h) {
        int twin = topology.twin(h);
        return twin >= 0 ? Math.min(h, twin) : h;
    }

    private void cross(int t, int u) {
        int[] ends = new int[2];
        int count = 0;
        for (int k = 0; k < 3; k++) {
            for (int m = 0; m < 3; m++) {
                if (corner(t, k) == corner(u, m)) {
                    count = add(ends, count, corner(t, k), t, u);
                }
            }
        }
        for (int k = 0; k < 3; k++) {
            count = pierce(3 * t + k, u, ends, count, t);
            count = pierce(3 * u + k, t, ends, count, u);
        }
        if (count != 2) {
            throw new TrimException("triangles " + t + " and " + u + " meet in " + count + " points", t);
        }
        Segment segment = new Segment(t, u, ends[0], ends[1]);
        segmentsOf(t).add(segment);
        segmentsOf(u).add(segment);
    }

    private static int add(int[] ends, int count, int node, int t, int u) {
        if (count == 2) {
            throw new TrimException("triangles " + t + " and " + u + " meet in more than two points", t);
        }
        ends[count] = node;
        return count + 1;
    }

    private List<Segment> segmentsOf(int t) {
        if (segments[t] == null) {
            segments[t] = new ArrayList<>();
        }
        return segments[t];
    }

    private int corner(int t, int k) {
        return mesh.triangles()[3 * t + k];
    }

    private int pierce(int h, int u, int[] ends, int count, int t) {
        int a = topology.from(h);
        int b = topology.to(h);
        int p = corner(u, 0);
        int q = corner(u, 1);
        int r = corner(u, 2);
        if (a == p || a == q || a == r || b == p || b == q || b == r) {
            return count;
        }
        int below = side(p, q, r, a);
        int above = side(p, q, r, b);
        if (below * above > 0) {
            return count;
        }
        int first = side(a, b, p, q);
        int second = side(a, b, q, r);
        int third = side(a, b, r, p);
        if (first * second < 0 || second * third < 0 || third * first < 0) {
            return count;
        }
        if (below * above == 0 || first * second * third == 0) {
            throw new TrimException("an edge touches triangle " + u, u);
        }
        return add(ends, count, piercing(h, u, a, b, p, q, r), t, u);
    }

    private int side(int a, int b, int c, int d) {
        return Predicates.orient3d(mesh.xyz(), 3 * a, 3 * b, 3 * c, 3 * d);
    }

    private int piercing(int h, int u, int a, int b, int p, int q, int r) {
        int edge = edge(h);
        long key = (long) edge << 32 | u;
        int known = piercings.getOrDefault(key, -1);
        if (known >= 0) {
            return known;
        }
        double[] c = mesh.xyz();
        double[] n = Planes.normal(c, p, q, r);
        double da = Planes.height(c, n, p, a);
        double db = Planes.height(c, n, p, b);
        double s = da / (da - db);
        s = Math.max(0, Math.min(1, s));
        int node = addNode(c[3 * a] + s * (c[3 * b] - c[3 * a]), c[3 * a + 1] + s * (c[3 * b + 1] - c[3 * a + 1]),
                c[3 * a + 2] + s * (c[3 * b + 2] - c[3 * a + 2]));
        piercings.put(key, node);
        if (edgeNodes[edge] == null) {
            edgeNodes[edge] = new IntArrayList(2);
        }
        edgeNodes[edge].add(node);
        return node;
    }
}
