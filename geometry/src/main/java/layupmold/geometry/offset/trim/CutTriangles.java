package layupmold.geometry.offset.trim;

import com.carrotsearch.hppc.DoubleArrayList;
import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.IntIntHashMap;
import com.carrotsearch.hppc.LongHashSet;
import layupmold.geometry.delaunay.ConstrainedDelaunay;
import layupmold.geometry.delaunay.PlanarGraphException;
import layupmold.geometry.mesh.Planes;
import layupmold.geometry.offset.trim.Arrangement.Segment;

/** The triangles of an arrangement, cut along its segments into pieces. O(n) and the pieces' triangulation. */
final class CutTriangles {

    private final Arrangement arrangement;
    /** Nodes, three a piece. */
    final IntArrayList pieces = new IntArrayList();
    /** Triangle that each piece is a part of. */
    final IntArrayList sources = new IntArrayList();
    /** Edges along which triangles cross. */
    final LongHashSet seams = new LongHashSet();

    private CutTriangles(Arrangement arrangement) {
        this.arrangement = arrangement;
    }

    static CutTriangles of(Arrangement arrangement) {
        CutTriangles cut = new CutTriangles(arrangement);
        for (int t = 0; t < arrangement.mesh.triangleCount(); t++) {
            cut.cut(t);
        }
        return cut;
    }

    static long edge(int a, int b) {
        return (long) Math.min(a, b) << 32 | Math.max(a, b);
    }

    private void cut(int t) {
        int[] corners = arrangement.mesh.triangles();
        int[][] along = new int[3][];
        boolean whole = arrangement.segments[t] == null;
        for (int k = 0; k < 3; k++) {
            along[k] = arrangement.nodesAlong(3 * t + k);
            whole &= along[k].length == 0;
        }
        if (whole) {
            add(corners[3 * t], corners[3 * t + 1], corners[3 * t + 2], t);
            return;
        }
        Plan plan = new Plan(t);
        for (int k = 0; k < 3; k++) {
            int previous = corners[3 * t + k];
            for (int node : along[k]) {
                plan.connect(previous, node, 1 << k);
                previous = node;
            }
            plan.connect(previous, corners[3 * t + (k + 1) % 3], 1 << k);
        }
        if (arrangement.segments[t] != null) {
            for (Segment s : arrangement.segments[t]) {
                int previous = s.from;
                for (int i = 0; i < s.nodes.size(); i++) {
                    seams.add(edge(previous, s.nodes.get(i)));
                    plan.connect(previous, s.nodes.get(i), 0);
                    previous = s.nodes.get(i);
                }
                seams.add(edge(previous, s.to));
                plan.connect(previous, s.to, 0);
            }
        }
        plan.triangulate();
    }

    private void add(int a, int b, int c, int t) {
        pieces.add(a);
        pieces.add(b);
        pieces.add(c);
        sources.add(t);
    }

    /** One triangle seen along the axis its normal is nearest to, counter-clockwise. */
    private final class Plan {
        private final int triangle;
        private final int x;
        private final int y;
        private final IntIntHashMap local = new IntIntHashMap();
        private final IntArrayList nodes = new IntArrayList();
        private final DoubleArrayList xy = new DoubleArrayList();
        private final IntArrayList links = new IntArrayList();
        /** Bit k for a node on side k. */
        private final IntArrayList sides = new IntArrayList();

        Plan(int triangle) {
            this.triangle = triangle;
            int[] corners = arrangement.mesh.triangles();
            double[] n = Planes.normal(arrangement.mesh.xyz(), corners[3 * triangle], corners[3 * triangle + 1],
                    corners[3 * triangle + 2]);
            int axis = Planes.dominantAxis(n);
            x = n[axis] > 0 ? (axis + 1) % 3 : (axis + 2) % 3;
            y = n[axis] > 0 ? (axis + 2) % 3 : (axis + 1) % 3;
        }

        void connect(int a, int b, int side) {
            links.add(point(a, side));
            links.add(point(b, side));
        }

        private int point(int node, int side) {
            int at = local.getOrDefault(node, -1);
            if (at < 0) {
                at = nodes.size();
                local.put(node, at);
                nodes.add(node);
                sides.add(0);
                xy.add(arrangement.xyz.get(3 * node + x));
                xy.add(arrangement.xyz.get(3 * node + y));
            }
            sides.set(at, sides.get(at) | side);
            return at;
        }

        void triangulate() {
            int[] parts;
            try {
                parts = ConstrainedDelaunay.graph(xy.toArray(), links.toArray());
            } catch (PlanarGraphException e) {
                throw new TrimException("crossings of triangle " + triangle + " run into each other: "
                        + e.getMessage(), triangle);
            }
            for (int i = 0; i < parts.length; i += 3) {
                // Points on one side are not quite on one line: what lies between them is not the triangle's.
                if ((sides.get(parts[i]) & sides.get(parts[i + 1]) & sides.get(parts[i + 2])) == 0) {
                    add(nodes.get(parts[i]), nodes.get(parts[i + 1]), nodes.get(parts[i + 2]), triangle);
                }
            }
        }
    }
}
