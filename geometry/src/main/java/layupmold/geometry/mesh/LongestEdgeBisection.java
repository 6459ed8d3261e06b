package layupmold.geometry.mesh;

import com.carrotsearch.hppc.IntArrayDeque;
import java.util.Arrays;
import java.util.stream.IntStream;

/**
 * Shortens sides on a mesh's border without moving its surface: a triangle with too long a side is halved, along with
 * those across the longer sides that lead to it, always at a longest side. So triangles grow gradually from the border
 * inward, and no angle gets smaller than half the smallest there was.
 *
 * <p>Longest-edge propagation path: Rivara, "New longest-edge algorithms for the refinement and/or improvement of
 * unstructured triangulations", Int. J. Numer. Methods Eng. 40 (1997). O(n + k) for n triangles and k bisections, each
 * after a path whose sides grow.
 */
public final class LongestEdgeBisection {

    private final IntArrayDeque sides = new IntArrayDeque();
    private double[] xyz;
    private int vertexCount;
    private int[] from;
    private int[] twin;
    /** Squares of how long sides may be; 0 for other half-edges. */
    private double[] mostSquared;
    private int halfEdgeCount;

    private LongestEdgeBisection(TriangleMesh mesh, EdgeTopology topology, int[] sides, double[] mostMm) {
        xyz = mesh.xyz().clone();
        vertexCount = mesh.vertexCount();
        from = mesh.triangles().clone();
        halfEdgeCount = from.length;
        twin = new int[halfEdgeCount];
        Arrays.setAll(twin, topology::twin);
        mostSquared = new double[halfEdgeCount];
        for (int i = 0; i < sides.length; i++) {
            mostSquared[sides[i]] = mostMm[i] * mostMm[i];
            this.sides.addLast(sides[i]);
        }
    }

    /**
     * @param mesh two-manifold
     * @param topology its edges
     * @param sides half-edges without a twin
     * @param mostMm longest that each of these may be left
     * @return {@code mesh} itself if none is longer; otherwise its vertices, and after them those in the middle of sides
     */
    public static TriangleMesh shorten(TriangleMesh mesh, EdgeTopology topology, int[] sides, double[] mostMm) {
        boolean allShort = IntStream.range(0, sides.length).allMatch(i ->
                mesh.vertex(topology.from(sides[i])).distance(mesh.vertex(topology.to(sides[i]))) <= mostMm[i]);
        return allShort ? mesh : new LongestEdgeBisection(mesh, topology, sides, mostMm).run();
    }

    /** Not if it is no side any more: what was beyond its middle is one of its own. */
    private boolean isTooLong(int side) {
        return mostSquared[side] > 0 && lengthSquared(side) > mostSquared[side];
    }

    private TriangleMesh run() {
        while (!sides.isEmpty()) {
            int side = sides.removeFirst();
            while (isTooLong(side)) {
                bisect(terminal(longest(side)));
            }
        }
        return new TriangleMesh(Arrays.copyOf(xyz, 3 * vertexCount), Arrays.copyOf(from, halfEdgeCount));
    }

    /** The end of the path across ever longer sides: no side of the triangles next to it is longer. */
    private int terminal(int start) {
        int h = start;
        while (twin[h] >= 0) {
            int beyond = longest(twin[h]);
            if (lengthSquared(beyond) <= lengthSquared(h)) {
                return h;
            }
            h = beyond;
        }
        return h;
    }

    private int longest(int h) {
        int next = EdgeTopology.next(h);
        int previous = EdgeTopology.previous(h);
        int longest = lengthSquared(next) > lengthSquared(h) ? next : h;
        return lengthSquared(previous) > lengthSquared(longest) ? previous : longest;
    }

    private double lengthSquared(int h) {
        int a = 3 * from[h];
        int b = 3 * from[EdgeTopology.next(h)];
        double dx = xyz[a] - xyz[b];
        double dy = xyz[a + 1] - xyz[b + 1];
        double dz = xyz[a + 2] - xyz[b + 2];
        return dx * dx + dy * dy + dz * dz;
    }

    private void bisect(int h) {
        int g = twin[h];
        int middle = addMiddle(from[h], from[EdgeTopology.next(h)]);
        int beyondH = cut(h, middle);
        if (g >= 0) {
            int beyondG = cut(g, middle);
            join(h, beyondG);
            join(g, beyondH);
        }
    }

    private int addMiddle(int a, int b) {
        if (3 * vertexCount == xyz.length) {
            xyz = Arrays.copyOf(xyz, 2 * xyz.length);
        }
        for (int axis = 0; axis < 3; axis++) {
            xyz[3 * vertexCount + axis] = (xyz[3 * a + axis] + xyz[3 * b + axis]) / 2;
        }
        return vertexCount++;
    }

    /** Ends {@code h} in {@code middle}; returns what goes on from there, in a triangle of its own. */
    private int cut(int h, int middle) {
        int next = EdgeTopology.next(h);
        int rest = halfEdgeCount;
        halfEdgeCount += 3;
        if (halfEdgeCount > from.length) {
            from = Arrays.copyOf(from, 2 * halfEdgeCount);
            twin = Arrays.copyOf(twin, 2 * halfEdgeCount);
            mostSquared = Arrays.copyOf(mostSquared, 2 * halfEdgeCount);
        }
        from[rest] = middle;
        from[rest + 1] = from[next];
        from[rest + 2] = from[EdgeTopology.next(next)];
        from[next] = middle;
        twin[rest] = twin[h];
        twin[rest + 1] = twin[next];
        if (twin[next] >= 0) {
            twin[twin[next]] = rest + 1;
        }
        join(next, rest + 2);
        inherit(h, rest);
        inherit(next, rest + 1);
        mostSquared[next] = 0;
        return rest;
    }

    private void inherit(int h, int part) {
        mostSquared[part] = mostSquared[h];
        if (mostSquared[h] > 0) {
            sides.addLast(part);
        }
    }

    private void join(int h, int g) {
        twin[h] = g;
        twin[g] = h;
    }
}
