package layupmold.geometry.bvh;

import static layupmold.geometry.predicates.Predicates.orient2d;
import static layupmold.geometry.predicates.Predicates.orient3d;

/**
 * Whether two triangles of one mesh meet anywhere but in the vertices and edges they share by index. Exact: every
 * decision is the sign of an orientation determinant, but for triangles that a plane keeps apart by more than rounding.
 * Touching counts as meeting.
 */
final class TriangleOverlap {

    /** More than the relative error of a scalar product of differences (Higham 2002, 3.1: five roundings). */
    private static final double ROUNDING = 8 * 0x1p-53;

    private TriangleOverlap() {
    }

    /** Corners are given as indices of their x in {@code xyz}. */
    static boolean test(double[] xyz, int a0, int a1, int a2, int b0, int b1, int b2) {
        boolean s0 = a0 == b0 || a0 == b1 || a0 == b2;
        boolean s1 = a1 == b0 || a1 == b1 || a1 == b2;
        boolean s2 = a2 == b0 || a2 == b1 || a2 == b2;
        int shared = (s0 ? 1 : 0) + (s1 ? 1 : 0) + (s2 ? 1 : 0);
        return switch (shared) {
            case 0 -> !arePartedBetween(xyz, a0, a1, a2, b0, b1, b2) && disjoint(xyz, a0, a1, a2, b0, b1, b2);
            case 1 -> {
                int v = s0 ? a0 : s1 ? a1 : a2;
                int c1 = s0 ? a1 : s1 ? a2 : a0;
                int c2 = s0 ? a2 : s1 ? a0 : a1;
                int d1 = v == b0 ? b1 : v == b1 ? b2 : b0;
                int d2 = v == b0 ? b2 : v == b1 ? b0 : b1;
                yield !arePartedAt(xyz, v, c1, c2, d1, d2) && oneVertex(xyz, v, c1, c2, d1, d2);
            }
            case 2 -> {
                int a = !s0 ? a0 : !s1 ? a1 : a2;
                int v = !s0 ? a1 : !s1 ? a2 : a0;
                int w = !s0 ? a2 : !s1 ? a0 : a1;
                int b = b0 != v && b0 != w ? b0 : b1 != v && b1 != w ? b1 : b2;
                yield oneEdge(xyz, v, w, a, b);
            }
            default -> true;
        };
    }

    private static boolean disjoint(double[] xyz, int a0, int a1, int a2, int b0, int b1, int b2) {
        int p0 = orient3d(xyz, b0, b1, b2, a0);
        int p1 = orient3d(xyz, b0, b1, b2, a1);
        int p2 = orient3d(xyz, b0, b1, b2, a2);
        if (p0 > 0 && p1 > 0 && p2 > 0 || p0 < 0 && p1 < 0 && p2 < 0) {
            return false;
        }
        int q0 = orient3d(xyz, a0, a1, a2, b0);
        int q1 = orient3d(xyz, a0, a1, a2, b1);
        int q2 = orient3d(xyz, a0, a1, a2, b2);
        if (q0 > 0 && q1 > 0 && q2 > 0 || q0 < 0 && q1 < 0 && q2 < 0) {
            return false;
        }
        return crosses(xyz, a0, a1, p0, p1, b0, b1, b2) || crosses(xyz, a1, a2, p1, p2, b0, b1, b2)
                || crosses(xyz, a2, a0, p2, p0, b0, b1, b2) || crosses(xyz, b0, b1, q0, q1, a0, a1, a2)
                || crosses(xyz, b1, b2, q1, q2, a0, a1, a2) || crosses(xyz, b2, b0, q2, q0, a0, a1, a2);
    }

    /** Triangles (v, a1, a2) and (v, b1, b2): they meet beyond v only if one's far edge meets the other. */
    private static boolean oneVertex(double[] xyz, int v, int a1, int a2, int b1, int b2) {
        int p1 = orient3d(xyz, v, b1, b2, a1);
        int p2 = orient3d(xyz, v, b1, b2, a2);
        if (p1 * p2 > 0) {
            return false;
        }
        int q1 = orient3d(xyz, v, a1, a2, b1);
        int q2 = orient3d(xyz, v, a1, a2, b2);
        if (q1 * q2 > 0) {
            return false;
        }
        return crosses(xyz, a1, a2, p1, p2, v, b1, b2) || crosses(xyz, b1, b2, q1, q2, v, a1, a2);
    }

    /** Triangles on both sides of edge v-w overlap only if folded flat onto each other. */
    private static boolean oneEdge(double[] xyz, int v, int w, int a, int b) {
        int drop = dominantAxis(xyz, v, w, a);
        return orient(xyz, drop, v, w, a) * orient(xyz, drop, v, w, b) > 0 && orient3d(xyz, v, w, a, b) == 0;
    }

    /** Whether a plane through v has a1 and a2 on one side and b1 and b2 on the other; false if none was found. */
    private static boolean arePartedAt(double[] xyz, int v, int a1, int a2, int b1, int b2) {
        return arePartedAt(xyz, v, a1, a2, b1, b2, 1, 1, 1, 1) || arePartedAt(xyz, v, a1, a2, b1, b2,
                1 / length(xyz, v, a1), 1 / length(xyz, v, a2), 1 / length(xyz, v, b1), 1 / length(xyz, v, b2));
    }

    /** The same for the plane across the way from a mean of b1 and b2 to one of a1 and a2, weighted as seen from v. */
    private static boolean arePartedAt(double[] xyz, int v, int a1, int a2, int b1, int b2,
            double s1, double s2, double t1, double t2) {
        double rest = t1 + t2 - s1 - s2;
        double x = s1 * xyz[a1] + s2 * xyz[a2] - t1 * xyz[b1] - t2 * xyz[b2] + rest * xyz[v];
        double y = s1 * xyz[a1 + 1] + s2 * xyz[a2 + 1] - t1 * xyz[b1 + 1] - t2 * xyz[b2 + 1] + rest * xyz[v + 1];
        double z = s1 * xyz[a1 + 2] + s2 * xyz[a2 + 2] - t1 * xyz[b1 + 2] - t2 * xyz[b2 + 2] + rest * xyz[v + 2];
        return isAlong(xyz, v, a1, x, y, z) && isAlong(xyz, v, a2, x, y, z)
                && isAlong(xyz, v, b1, -x, -y, -z) && isAlong(xyz, v, b2, -x, -y, -z);
    }

    private static double length(double[] xyz, int a, int b) {
        double x = xyz[a] - xyz[b];
        double y = xyz[a + 1] - xyz[b + 1];
        double z = xyz[a + 2] - xyz[b + 2];
        return Math.sqrt(x * x + y * y + z * z);
    }

    /** Whether a plane across the way between two triangles' middles has them on both sides. */
    private static boolean arePartedBetween(double[] xyz, int a0, int a1, int a2, int b0, int b1, int b2) {
        double x = xyz[a0] + xyz[a1] + xyz[a2] - xyz[b0] - xyz[b1] - xyz[b2];
        double y = xyz[a0 + 1] + xyz[a1 + 1] + xyz[a2 + 1] - xyz[b0 + 1] - xyz[b1 + 1] - xyz[b2 + 1];
        double z = xyz[a0 + 2] + xyz[a1 + 2] + xyz[a2 + 2] - xyz[b0 + 2] - xyz[b1 + 2] - xyz[b2 + 2];
        double near = Math.min(dot(xyz, a0, x, y, z), Math.min(dot(xyz, a1, x, y, z), dot(xyz, a2, x, y, z)));
        double far = Math.max(dot(xyz, b0, x, y, z), Math.max(dot(xyz, b1, x, y, z), dot(xyz, b2, x, y, z)));
        double span = Math.abs(x) + Math.abs(y) + Math.abs(z);
        double size = size(xyz, a0) + size(xyz, a1) + size(xyz, a2) + size(xyz, b0) + size(xyz, b1) + size(xyz, b2);
        return near - far > ROUNDING * span * size;
    }

    private static double dot(double[] xyz, int at, double x, double y, double z) {
        return xyz[at] * x + xyz[at + 1] * y + xyz[at + 2] * z;
    }

    private static double size(double[] xyz, int at) {
        return Math.abs(xyz[at]) + Math.abs(xyz[at + 1]) + Math.abs(xyz[at + 2]);
    }

    /** Whether the way from one vertex to another goes along a direction, beyond rounding. */
    private static boolean isAlong(double[] xyz, int from, int to, double x, double y, double z) {
        double dx = (xyz[to] - xyz[from]) * x;
        double dy = (xyz[to + 1] - xyz[from + 1]) * y;
        double dz = (xyz[to + 2] - xyz[from + 2]) * z;
        return dx + dy + dz > ROUNDING * (Math.abs(dx) + Math.abs(dy) + Math.abs(dz));
    }

    /** Segment p-q, whose ends lie on sides {@code sp} and {@code sq} of the plane of t0, t1, t2. */
    private static boolean crosses(double[] xyz, int p, int q, int sp, int sq, int t0, int t1, int t2) {
        if (sp * sq > 0) {
            return false;
        }
        if (sp == 0 && sq == 0) {
            return crossesInPlane(xyz, p, q, t0, t1, t2);
        }
        int e0 = orient3d(xyz, p, q, t0, t1);
        int e1 = orient3d(xyz, p, q, t1, t2);
        if (e0 * e1 < 0) {
            return false;
        }
        int e2 = orient3d(xyz, p, q, t2, t0);
        return e0 >= 0 && e1 >= 0 && e2 >= 0 || e0 <= 0 && e1 <= 0 && e2 <= 0;
    }

    private static boolean crossesInPlane(double[] xyz, int p, int q, int t0, int t1, int t2) {
        int drop = dominantAxis(xyz, t0, t1, t2);
        return inside(xyz, drop, p, t0, t1, t2) || inside(xyz, drop, q, t0, t1, t2)
                || segmentsMeet(xyz, drop, p, q, t0, t1) || segmentsMeet(xyz, drop, p, q, t1, t2)
                || segmentsMeet(xyz, drop, p, q, t2, t0);
    }

    private static boolean inside(double[] xyz, int drop, int p, int t0, int t1, int t2) {
        int e0 = orient(xyz, drop, t0, t1, p);
        int e1 = orient(xyz, drop, t1, t2, p);
        int e2 = orient(xyz, drop, t2, t0, p);
        return e0 >= 0 && e1 >= 0 && e2 >= 0 || e0 <= 0 && e1 <= 0 && e2 <= 0;
    }

    private static boolean segmentsMeet(double[] xyz, int drop, int p, int q, int a, int b) {
        int d0 = orient(xyz, drop, p, q, a);
        int d1 = orient(xyz, drop, p, q, b);
        int d2 = orient(xyz, drop, a, b, p);
        int d3 = orient(xyz, drop, a, b, q);
        if (d0 == 0 && d1 == 0 && d2 == 0 && d3 == 0) {
            return overlapsOnLine(xyz, p, q, a, b);
        }
        return d0 * d1 <= 0 && d2 * d3 <= 0;
    }

    private static boolean overlapsOnLine(double[] xyz, int p, int q, int a, int b) {
        for (int k = 0; k < 3; k++) {
            if (Math.max(xyz[p + k], xyz[q + k]) < Math.min(xyz[a + k], xyz[b + k])
                    || Math.max(xyz[a + k], xyz[b + k]) < Math.min(xyz[p + k], xyz[q + k])) {
                return false;
            }
        }
        return true;
    }

    private static int orient(double[] xyz, int drop, int a, int b, int c) {
        int u = drop == 0 ? 1 : 0;
        int v = drop == 2 ? 1 : 2;
        return orient2d(xyz[a + u], xyz[a + v], xyz[b + u], xyz[b + v], xyz[c + u], xyz[c + v]);
    }

    /** Axis along which the triangle's normal is longest: dropping it keeps the projection from collapsing. */
    private static int dominantAxis(double[] xyz, int a, int b, int c) {
        double ux = xyz[b] - xyz[a];
        double uy = xyz[b + 1] - xyz[a + 1];
        double uz = xyz[b + 2] - xyz[a + 2];
        double vx = xyz[c] - xyz[a];
        double vy = xyz[c + 1] - xyz[a + 1];
        double vz = xyz[c + 2] - xyz[a + 2];
        double nx = Math.abs(uy * vz - uz * vy);
        double ny = Math.abs(uz * vx - ux * vz);
        double nz = Math.abs(ux * vy - uy * vx);
        if (nx >= ny && nx >= nz) {
            return 0;
        }
        return ny >= nz ? 1 : 2;
    }
}
