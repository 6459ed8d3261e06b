package layupmold.geometry.offset.trim;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import layupmold.geometry.mesh.Planes;
import layupmold.geometry.offset.trim.Arrangement.Segment;
import layupmold.geometry.predicates.Predicates;

/** Finds where two segments cross inside a triangle: there three triangles meet, and all three segments get the point. */
final class TriplePoints {

    private static final int MOST_SEGMENTS = 3000;

    private record Triple(int a, int b, int c) {
        static Triple of(int t, int u, int w) {
            int low = Math.min(t, Math.min(u, w));
            int high = Math.max(t, Math.max(u, w));
            return new Triple(low, t + u + w - low - high, high);
        }
    }

    private final Arrangement arrangement;
    private final Map<Triple, Integer> known = new HashMap<>();

    TriplePoints(Arrangement arrangement) {
        this.arrangement = arrangement;
    }

    void insert() {
        for (int t = 0; t < arrangement.segments.length; t++) {
            List<Segment> list = arrangement.segments[t];
            if (list != null && list.size() > 1) {
                insert(t, list);
            }
        }
    }

    private void insert(int t, List<Segment> list) {
        if (list.size() > MOST_SEGMENTS) {
            throw new TrimException("triangle " + t + " is crossed by " + list.size() + " others", t);
        }
        int[] corners = arrangement.mesh.triangles();
        double[] n = Planes.normal(arrangement.mesh.xyz(), corners[3 * t], corners[3 * t + 1], corners[3 * t + 2]);
        int axis = Planes.dominantAxis(n);
        int x = (axis + 1) % 3;
        int y = (axis + 2) % 3;
        double[] box = new double[4 * list.size()];
        for (int i = 0; i < list.size(); i++) {
            Segment s = list.get(i);
            for (int k = 0; k < 2; k++) {
                double from = at(s.from, k == 0 ? x : y);
                double to = at(s.to, k == 0 ? x : y);
                box[4 * i + k] = Math.min(from, to);
                box[4 * i + 2 + k] = Math.max(from, to);
            }
        }
        for (int i = 0; i < list.size(); i++) {
            for (int k = 0; k < i; k++) {
                if (box[4 * i] <= box[4 * k + 2] && box[4 * k] <= box[4 * i + 2]
                        && box[4 * i + 1] <= box[4 * k + 3] && box[4 * k + 1] <= box[4 * i + 3]) {
                    meet(t, list.get(i), list.get(k), x, y);
                }
            }
        }
    }

    private void meet(int t, Segment s, Segment r, int x, int y) {
        if (s.from == r.from || s.from == r.to || s.to == r.from || s.to == r.to) {
            return;
        }
        int a = side(s, r.from, x, y);
        int b = side(s, r.to, x, y);
        int c = side(r, s.from, x, y);
        int d = side(r, s.to, x, y);
        if (a * b > 0 || c * d > 0) {
            return;
        }
        if (a * b == 0 || c * d == 0) {
            throw new TrimException("crossings touch in triangle " + t, t);
        }
        Triple triple = Triple.of(t, s.other(t), r.other(t));
        if (known.containsKey(triple)) {
            return;
        }
        Segment third = between(s.other(t), r.other(t));
        double share = share(s, r, x, y);
        int node = arrangement.addNode(on(s, share, 0), on(s, share, 1), on(s, share, 2));
        known.put(triple, node);
        s.insert(node, share);
        r.insert(node, along(r, node));
        third.insert(node, along(third, node));
    }

    private Segment between(int u, int w) {
        for (Segment s : arrangement.segments[u]) {
            if (s.other(u) == w) {
                return s;
            }
        }
        throw new TrimException("three triangles cross, but not each other", u);
    }

    private double at(int node, int axis) {
        return arrangement.xyz.get(3 * node + axis);
    }

    private int side(Segment s, int node, int x, int y) {
        return Predicates.orient2d(at(s.from, x), at(s.from, y), at(s.to, x), at(s.to, y), at(node, x), at(node, y));
    }

    private double on(Segment s, double share, int axis) {
        return at(s.from, axis) + share * (at(s.to, axis) - at(s.from, axis));
    }

    /** Where along {@code s} it meets {@code r}. */
    private double share(Segment s, Segment r, int x, int y) {
        double ux = at(s.to, x) - at(s.from, x);
        double uy = at(s.to, y) - at(s.from, y);
        double vx = at(r.to, x) - at(r.from, x);
        double vy = at(r.to, y) - at(r.from, y);
        double wx = at(r.from, x) - at(s.from, x);
        double wy = at(r.from, y) - at(s.from, y);
        return (wx * vy - wy * vx) / (ux * vy - uy * vx);
    }

    private double along(Segment s, int node) {
        double square = 0;
        double dot = 0;
        for (int k = 0; k < 3; k++) {
            double d = at(s.to, k) - at(s.from, k);
            square += d * d;
            dot += d * (at(node, k) - at(s.from, k));
        }
        return dot / square;
    }
}
