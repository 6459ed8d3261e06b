package layupmold.geometry.drape;

import layupmold.geometry.mesh.EdgeTopology;

/**
 * Follows the cut of a plane with the sheet from a point in a triangle, edge by edge.
 *
 * <p>A vertex on the plane counts as above it, so every triangle is cut through exactly two edges or not at all, and
 * the walk cannot stall in a vertex. Past the sheet's edge the walk goes straight on. O(triangles crossed).
 */
final class SectionWalk {

    /** Where along a segment the walk stops. */
    @FunctionalInterface
    interface Stop {
        /** Position on the segment from p to q, 0 to 1, or a negative number to walk on. */
        double at(double px, double py, double pz, double qx, double qy, double qz);
    }

    /** Told of the edges a walk crosses. */
    @FunctionalInterface
    interface Crossings {
        /** Over half-edge {@code exit} to its twin. */
        void cross(int exit, int twin);
    }

    private final double[] xyz;
    private final int[] triangles;
    private final EdgeTopology topology;
    /** Where the edge last looked at is cut. */
    final double[] crossing = new double[3];

    /** Where the walk stopped. */
    final double[] point = new double[3];
    /** The triangle it stopped in, or the last one before the sheet's edge. */
    int triangle;
    /** Whether it stopped beyond the sheet's edge. */
    boolean offSheet;
    /** Told of every edge the walk crosses, or null. */
    Crossings crossings;
    /** Half-edge over which the last walk left the sheet. */
    int lastExit;

    SectionWalk(ToolSheet sheet) {
        this.xyz = sheet.mesh().xyz();
        this.triangles = sheet.mesh().triangles();
        this.topology = sheet.topology();
    }

    /** A {@link Stop} where the cut leaves a sphere: zero if p is beyond it already. */
    static double leavesSphere(double px, double py, double pz, double qx, double qy, double qz,
            double[] centre, double radius) {
        double dx = qx - centre[0];
        double dy = qy - centre[1];
        double dz = qz - centre[2];
        if (dx * dx + dy * dy + dz * dz < radius * radius) {
            return -1;
        }
        double ux = qx - px;
        double uy = qy - py;
        double uz = qz - pz;
        double fx = px - centre[0];
        double fy = py - centre[1];
        double fz = pz - centre[2];
        double uu = ux * ux + uy * uy + uz * uz;
        double fu = fx * ux + fy * uy + fz * uz;
        double cc = fx * fx + fy * fy + fz * fz - radius * radius;
        double root = Math.sqrt(Math.max(0, fu * fu - uu * cc));
        return uu == 0 ? 0 : Math.min(1, Math.max(0, (-fu + root) / uu));
    }

    /**
     * @param m unit normal of the plane; {@code p} lies on it
     * @param p start, in triangle {@code t}
     * @param dir which of the two ways to go
     * @param reachMm longest walk
     * @return false if the walk could not start or did not stop within its reach
     */
    boolean walk(double[] m, int t, double[] p, double[] dir, double reachMm, Stop stop) {
        double offset = m[0] * p[0] + m[1] * p[1] + m[2] * p[2];
        int exit = firstExit(m, offset, t, p, dir);
        double px = p[0];
        double py = p[1];
        double pz = p[2];
        double walked = 0;
        offSheet = false;
        while (exit >= 0) {
            triangle = exit / 3;
            cross(m, offset, exit);
            double qx = crossing[0];
            double qy = crossing[1];
            double qz = crossing[2];
            if (stopped(stop, px, py, pz, qx, qy, qz)) {
                return true;
            }
            double length = Math.sqrt((qx - px) * (qx - px) + (qy - py) * (qy - py) + (qz - pz) * (qz - pz));
            walked += length;
            if (walked > reachMm) {
                return false;
            }
            int twin = topology.twin(exit);
            if (twin < 0) {
                lastExit = exit;
                return beyond(m, dir, px, py, pz, qx, qy, qz, length, reachMm, stop);
            }
            if (crossings != null) {
                crossings.cross(exit, twin);
            }
            exit = otherCut(m, offset, twin);
            px = qx;
            py = qy;
            pz = qz;
        }
        return false;
    }

    private boolean stopped(Stop stop, double px, double py, double pz, double qx, double qy, double qz) {
        double s = stop.at(px, py, pz, qx, qy, qz);
        if (s < 0) {
            return false;
        }
        point[0] = px + s * (qx - px);
        point[1] = py + s * (qy - py);
        point[2] = pz + s * (qz - pz);
        return true;
    }

    private boolean beyond(double[] m, double[] dir, double px, double py, double pz, double qx, double qy, double qz,
            double length, double reachMm, Stop stop) {
        double dx = qx - px;
        double dy = qy - py;
        double dz = qz - pz;
        if (length < 1e-9 * reachMm) {
            double along = dir[0] * m[0] + dir[1] * m[1] + dir[2] * m[2];
            dx = dir[0] - along * m[0];
            dy = dir[1] - along * m[1];
            dz = dir[2] - along * m[2];
        }
        double scale = reachMm / Math.sqrt(dx * dx + dy * dy + dz * dz);
        offSheet = true;
        return stopped(stop, qx, qy, qz, qx + scale * dx, qy + scale * dy, qz + scale * dz);
    }

    private double side(double[] m, double offset, int vertex) {
        int v = 3 * vertex;
        return m[0] * xyz[v] + m[1] * xyz[v + 1] + m[2] * xyz[v + 2] - offset;
    }

    private boolean isCut(double[] m, double offset, int h) {
        return side(m, offset, triangles[h]) >= 0 != side(m, offset, triangles[EdgeTopology.next(h)]) >= 0;
    }

    private int firstExit(double[] m, double offset, int t, double[] p, double[] dir) {
        int best = -1;
        double farthest = Double.NEGATIVE_INFINITY;
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            if (isCut(m, offset, h)) {
                cross(m, offset, h);
                double along = (crossing[0] - p[0]) * dir[0] + (crossing[1] - p[1]) * dir[1]
                        + (crossing[2] - p[2]) * dir[2];
                if (along > farthest) {
                    farthest = along;
                    best = h;
                }
            }
        }
        return best;
    }

    private int otherCut(double[] m, double offset, int entry) {
        int h = EdgeTopology.next(entry);
        return isCut(m, offset, h) ? h : isCut(m, offset, EdgeTopology.next(h)) ? EdgeTopology.next(h) : -1;
    }

    private void cross(double[] m, double offset, int h) {
        double a = side(m, offset, triangles[h]);
        double b = side(m, offset, triangles[EdgeTopology.next(h)]);
        double s = a == b ? 0 : a / (a - b);
        int v = 3 * triangles[h];
        int w = 3 * triangles[EdgeTopology.next(h)];
        for (int k = 0; k < 3; k++) {
            crossing[k] = xyz[v + k] + s * (xyz[w + k] - xyz[v + k]);
        }
    }
}
