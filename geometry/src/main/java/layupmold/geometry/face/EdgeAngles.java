package layupmold.geometry.face;

import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;
import org.joml.Vector3d;

/**
 * How the surface turns at each edge.
 *
 * @param normals unit normals, three a triangle; zero where a triangle has no area
 * @param areas triangle areas, mm²
 * @param lengths edge lengths by half-edge, mm
 * @param turn angle between the two normals by half-edge, radians; positive where convex; 0 without a twin
 * @param curvature turn over the distance between the triangles' middles, 1/mm
 */
record EdgeAngles(double[] normals, double[] areas, float[] lengths, float[] turn, float[] curvature) {

    private static final int GRAIN = 1 << 14;
    /** A triangle this small against its neighbours is a sliver. */
    private static final double SLIVER = 0.1;

    static EdgeAngles of(TriangleMesh mesh, EdgeTopology topology) {
        int n = mesh.triangleCount();
        double[] normals = mesh.unitNormals();
        double[] areas = new double[n];
        float[] lengths = new float[3 * n];
        float[] turn = new float[3 * n];
        float[] curvature = new float[3 * n];
        Parallel.forRanges(n, GRAIN, (chunk, from, to) -> {
            for (int t = from; t < to; t++) {
                areas[t] = area(mesh, t);
            }
        });
        Parallel.forRanges(n, GRAIN, (chunk, from, to) -> {
            for (int h = 3 * from; h < 3 * to; h++) {
                lengths[h] = (float) length(mesh, topology, h);
                // Once for both sides: an edge's turn takes as long as all else here.
                if (topology.twin(h) > h) {
                    measure(mesh, topology, normals, areas, h, lengths[h], turn, curvature);
                }
            }
        });
        return new EdgeAngles(normals, areas, lengths, turn, curvature).acrossSlivers(topology);
    }

    /** Noise turns a sliver far out of its wall and back: along its sides only what turns across it counts. */
    private EdgeAngles acrossSlivers(EdgeTopology topology) {
        float[] netTurn = turn.clone();
        float[] netCurvature = curvature.clone();
        Parallel.forRanges(areas.length, GRAIN, (chunk, from, to) -> {
            for (int h = 3 * from; h < 3 * to; h++) {
                int g = topology.twin(h);
                double here = areas[h / 3];
                double there = g >= 0 ? areas[g / 3] : here;
                if (g >= 0 && Math.min(here, there) <= SLIVER * Math.max(here, there)) {
                    straighten(topology, h, here < there ? h : g, netTurn, netCurvature);
                }
            }
        });
        return new EdgeAngles(normals, areas, lengths, netTurn, netCurvature);
    }

    /** @param side the half-edge of edge {@code h} that belongs to the smaller triangle */
    private void straighten(EdgeTopology topology, int h, int side, float[] netTurn, float[] netCurvature) {
        int next = EdgeTopology.next(side);
        int before = EdgeTopology.previous(side);
        int other = lengths[next] >= lengths[before] ? next : before;
        int near = topology.twin(side) / 3;
        int beyond = topology.twin(other) / 3;
        if (topology.twin(other) < 0 || lengths[side] < Math.min(lengths[next], lengths[before])
                || areas[side / 3] > SLIVER * areas[beyond]) {
            return;
        }
        double net = turn[side] + turn[other];
        if (Math.abs(net) < Math.abs(turn[h])) {
            netTurn[h] = (float) net;
            netCurvature[h] = (float) (net * lengths[h] / (areas[near] + areas[beyond]));
        }
    }

    private static double area(TriangleMesh mesh, int t) {
        double[] p = mesh.xyz();
        int a = 3 * mesh.triangles()[3 * t];
        int b = 3 * mesh.triangles()[3 * t + 1];
        int c = 3 * mesh.triangles()[3 * t + 2];
        double ux = p[b] - p[a];
        double uy = p[b + 1] - p[a + 1];
        double uz = p[b + 2] - p[a + 2];
        double vx = p[c] - p[a];
        double vy = p[c + 1] - p[a + 1];
        double vz = p[c + 2] - p[a + 2];
        double nx = uy * vz - uz * vy;
        double ny = uz * vx - ux * vz;
        double nz = ux * vy - uy * vx;
        return Math.sqrt(nx * nx + ny * ny + nz * nz) / 2;
    }

    private static void measure(TriangleMesh mesh, EdgeTopology topology, double[] normals, double[] areas, int h,
            double length, float[] turn, float[] curvature) {
        int g = topology.twin(h);
        int s = h / 3;
        int t = g / 3;
        double dot = normals[3 * s] * normals[3 * t] + normals[3 * s + 1] * normals[3 * t + 1]
                + normals[3 * s + 2] * normals[3 * t + 2];
        double[] p = mesh.xyz();
        int a = 3 * topology.from(h);
        int opposite = 3 * topology.from(EdgeTopology.previous(g));
        double side = (p[opposite] - p[a]) * normals[3 * s] + (p[opposite + 1] - p[a + 1]) * normals[3 * s + 1]
                + (p[opposite + 2] - p[a + 2]) * normals[3 * s + 2];
        double angle = Math.acos(Math.max(-1, Math.min(1, dot)));
        if (angle < 1e-3) {
            // acos loses its digits here, and whether so flat an edge bends in or out is noise.
            return;
        }
        double distance = (areas[s] + areas[t]) / Math.max(length, 1e-300);
        turn[h] = turn[g] = (float) (side <= 0 ? angle : -angle);
        curvature[h] = curvature[g] = (float) (turn[h] / Math.max(distance, 1e-12));
    }

    private static double length(TriangleMesh mesh, EdgeTopology topology, int h) {
        double[] p = mesh.xyz();
        int a = 3 * topology.from(h);
        int b = 3 * topology.to(h);
        double dx = p[b] - p[a];
        double dy = p[b + 1] - p[a + 1];
        double dz = p[b + 2] - p[a + 2];
        return Math.sqrt(dx * dx + dy * dy + dz * dz);
    }

    double length(int h) {
        return lengths[h];
    }

    /** Unit normal of triangle {@code t}; zero where it has no area. */
    Vector3d normal(int t) {
        return new Vector3d(normals[3 * t], normals[3 * t + 1], normals[3 * t + 2]);
    }

    /** Unit normal of triangle {@code t} along (x, y, z). */
    double along(int t, double x, double y, double z) {
        return normals[3 * t] * x + normals[3 * t + 1] * y + normals[3 * t + 2] * z;
    }

    /** Cosine of the angle between the normals of two triangles. */
    double cosine(int s, int t) {
        return along(s, normals[3 * t], normals[3 * t + 1], normals[3 * t + 2]);
    }
}
