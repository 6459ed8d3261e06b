package layupmold.geometry.simplify;

import layupmold.geometry.bvh.ClosestPoint;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.mesh.EdgeTopology;

/**
 * Whether collapsing an edge leaves a manifold without folds: the ends share no neighbours but those of the edge's own
 * triangles (link condition: Dey, Edelsbrunner, Guha and Nekhayev, "Topology preserving edge contraction", 1999), and
 * no triangle that stays turns by much or becomes a sliver.
 */
final class CollapseGuard {

    /** Triangles may turn by 45° at most. */
    private static final double LEAST_COSINE = 0.7;
    /** Of a new triangle's normal and the sum of the two old ones. */
    private static final double LEAST_CREASE_COSINE = 0.4;
    /** Triangles flatter than this have no normal to speak of. */
    static final double FLAT_MM = 1e-3;
    /** What grows by more must face as all around do: a sliver's own normal says little. */
    private static final double GROWTH = 4;
    /** Tips nearer than this to the triangle they stand on are flattened, however steep their sides. */
    private static final double FIN_MM = 5e-3;

    private final HalfEdgeMesh mesh;
    private final double leastHeightMm;
    private final HalfEdgeMesh.Fan otherFan = new HalfEdgeMesh.Fan();
    private final NearestPoint nearest = new NearestPoint();
    private final double[] before = new double[5];
    private final double[] after = new double[5];
    private final double[] around = new double[5];

    /** @param leastHeightMm no triangle becomes flatter than this unless it was */
    CollapseGuard(HalfEdgeMesh mesh, double leastHeightMm) {
        this.mesh = mesh;
        this.leastHeightMm = leastHeightMm;
    }

    /**
     * Whether {@code h}'s start, whose fan is given, may move into its end.
     *
     * @param mayFlatten whether triangles may lose their height: a later collapse takes them away
     */
    boolean allows(int h, HalfEdgeMesh.Fan fan, boolean mayFlatten) {
        return keepsTopology(h, fan) && (isFin(h, fan) || keepsShape(h, fan, mayFlatten));
    }

    /** Whether the start of {@code h} is the tip of three triangles that stand on a fourth one's outline, within reach. */
    boolean isFin(int h, HalfEdgeMesh.Fan fan) {
        if (fan.size != 3 || fan.onBoundary) {
            return false;
        }
        int[] g = fan.halfEdges;
        int u = 3 * mesh.from(h);
        nearest.begin(Double.POSITIVE_INFINITY);
        ClosestPoint.onTriangle(mesh.xyz, 3 * mesh.to(g[0]), 3 * mesh.to(g[1]), 3 * mesh.to(g[2]),
                mesh.xyz[u], mesh.xyz[u + 1], mesh.xyz[u + 2], 0, nearest);
        return nearest.distanceSquared <= FIN_MM * FIN_MM;
    }

    /** Whether the inner edge of {@code h} may be flipped: out of a flat triangle, without a fold or a double edge. */
    boolean allowsFlip(int h) {
        int g = mesh.twin(h);
        int u = mesh.from(h);
        int v = mesh.to(h);
        int a = mesh.apex(h);
        int b = mesh.apex(g);
        if (!mayBeJoined(a, b)) {
            return false;
        }
        measure(v, u, b, before);
        measure(u, b, a, after);
        if (before[3] < FLAT_MM || after[3] < FLAT_MM || cosine() < LEAST_COSINE) {
            return false;
        }
        measure(v, a, b, after);
        return after[3] >= FLAT_MM && cosine() >= LEAST_COSINE;
    }

    /** Whether the inner edge of {@code h} may be flipped: the new triangles face as the old ones do between them. */
    boolean allowsCreaseFlip(int h) {
        int g = mesh.twin(h);
        int u = mesh.from(h);
        int v = mesh.to(h);
        int a = mesh.apex(h);
        int b = mesh.apex(g);
        if (!mayBeJoined(a, b)) {
            return false;
        }
        measure(u, v, a, before);
        measure(v, u, b, after);
        for (int k = 0; k < 3; k++) {
            before[k] += after[k];
        }
        measure(u, b, a, after);
        if (after[3] < FLAT_MM || cosine() < LEAST_CREASE_COSINE) {
            return false;
        }
        measure(v, a, b, after);
        return after[3] >= FLAT_MM && cosine() >= LEAST_CREASE_COSINE;
    }

    /** Whether an edge from {@code a} to {@code b} would be the only one. */
    boolean mayBeJoined(int a, int b) {
        mesh.fan(a, otherFan);
        return a != b && sharesOnly(b, -1, -1, -1);
    }

    /** How far the apex across {@code h} lies off the plane of its own triangle, mm; for any number of threads. */
    double bend(int h) {
        double[] xyz = mesh.xyz;
        int u = 3 * mesh.from(h);
        int v = 3 * mesh.to(h);
        int a = 3 * mesh.apex(h);
        int b = 3 * mesh.apex(mesh.twin(h));
        double ex = xyz[v] - xyz[u];
        double ey = xyz[v + 1] - xyz[u + 1];
        double ez = xyz[v + 2] - xyz[u + 2];
        double fx = xyz[a] - xyz[u];
        double fy = xyz[a + 1] - xyz[u + 1];
        double fz = xyz[a + 2] - xyz[u + 2];
        double nx = ey * fz - ez * fy;
        double ny = ez * fx - ex * fz;
        double nz = ex * fy - ey * fx;
        double length = Math.sqrt(nx * nx + ny * ny + nz * nz);
        double height = nx * (xyz[b] - xyz[u]) + ny * (xyz[b + 1] - xyz[u + 1]) + nz * (xyz[b + 2] - xyz[u + 2]);
        return length > 0 ? Math.abs(height) / length : Double.POSITIVE_INFINITY;
    }

    /** Least height of the triangle of {@code h}. */
    double height(int h) {
        measure(mesh.from(h), mesh.to(h), mesh.apex(h), before);
        return before[3];
    }

    private double cosine() {
        return before[0] * after[0] + before[1] * after[1] + before[2] * after[2];
    }

    /** The link condition alone. */
    boolean keepsTopology(int h, HalfEdgeMesh.Fan fan) {
        int v = mesh.to(h);
        int across = mesh.twin(h);
        mesh.fan(v, otherFan);
        if (fan.onBoundary && across >= 0) {
            return false;
        }
        int a = mesh.apex(h);
        int b = across >= 0 ? mesh.apex(across) : -1;
        int left = fan.size - (across >= 0 ? 2 : 1);
        if (left < 1 || otherFan.size - (across >= 0 ? 2 : 1) < 1) {
            return false;
        }
        for (int i = 0; i < fan.size; i++) {
            if (!sharesOnly(mesh.to(fan.halfEdges[i]), a, b, v)) {
                return false;
            }
        }
        // An open fan's last neighbour is no half-edge's end.
        return !fan.onBoundary || sharesOnly(mesh.apex(fan.halfEdges[fan.size - 1]), a, b, v);
    }

    /** False if {@code w} is a neighbour of the other end without being an apex. */
    private boolean sharesOnly(int w, int a, int b, int v) {
        if (w == a || w == b || w == v) {
            return true;
        }
        for (int i = 0; i < otherFan.size; i++) {
            if (mesh.to(otherFan.halfEdges[i]) == w) {
                return false;
            }
        }
        return !otherFan.onBoundary || mesh.apex(otherFan.halfEdges[otherFan.size - 1]) != w;
    }

    private boolean keepsShape(int h, HalfEdgeMesh.Fan fan, boolean mayFlatten) {
        int u = mesh.from(h);
        int v = mesh.to(h);
        for (int i = 0; i < fan.size; i++) {
            int g = fan.halfEdges[i];
            int p = mesh.to(g);
            int q = mesh.apex(g);
            if (p == v || q == v) {
                continue;
            }
            measure(u, p, q, before);
            measure(v, p, q, after);
            if (after[4] > GROWTH * before[4] && !facesAlong(fan)) {
                return false;
            }
            if (!mayFlatten && after[3] < leastHeightMm && after[3] < before[3]) {
                return false;
            }
            if (after[3] < FLAT_MM || before[3] < FLAT_MM && !reference(g)) {
                continue;
            }
            if (cosine() < LEAST_COSINE) {
                return false;
            }
        }
        return true;
    }

    /** Whether the last triangle measured faces no way but the fan's triangles together do. */
    private boolean facesAlong(HalfEdgeMesh.Fan fan) {
        double sum = 0;
        for (int i = 0; i < fan.size; i++) {
            int g = fan.halfEdges[i];
            measure(mesh.from(g), mesh.to(g), mesh.apex(g), around);
            sum += (around[0] * after[0] + around[1] * after[1] + around[2] * after[2]) * around[4];
        }
        return sum > 0;
    }

    /** Takes the normal across the longest side in place of a flat triangle's own; false if that is flat as well. */
    private boolean reference(int g) {
        int longest = -1;
        double length = 0;
        int h = g;
        for (int k = 0; k < 3; k++, h = EdgeTopology.next(h)) {
            double d = mesh.squaredLength(mesh.from(h), mesh.to(h));
            if (d > length) {
                length = d;
                longest = h;
            }
        }
        int twin = longest < 0 ? -1 : mesh.twin(longest);
        if (twin < 0) {
            return false;
        }
        measure(mesh.from(twin), mesh.to(twin), mesh.apex(twin), before);
        return before[3] >= FLAT_MM;
    }

    /** Unit normal, least height and area of a triangle. */
    private void measure(int u, int p, int q, double[] into) {
        double[] xyz = mesh.xyz;
        double ax = xyz[3 * p] - xyz[3 * u];
        double ay = xyz[3 * p + 1] - xyz[3 * u + 1];
        double az = xyz[3 * p + 2] - xyz[3 * u + 2];
        double bx = xyz[3 * q] - xyz[3 * u];
        double by = xyz[3 * q + 1] - xyz[3 * u + 1];
        double bz = xyz[3 * q + 2] - xyz[3 * u + 2];
        double nx = ay * bz - az * by;
        double ny = az * bx - ax * bz;
        double nz = ax * by - ay * bx;
        double twiceArea = Math.sqrt(nx * nx + ny * ny + nz * nz);
        double longest = Math.sqrt(Math.max(mesh.squaredLength(p, q),
                Math.max(ax * ax + ay * ay + az * az, bx * bx + by * by + bz * bz)));
        double scale = twiceArea > 0 ? 1 / twiceArea : 0;
        into[0] = nx * scale;
        into[1] = ny * scale;
        into[2] = nz * scale;
        into[3] = longest > 0 ? twiceArea / longest : 0;
        into[4] = twiceArea / 2;
    }
}
