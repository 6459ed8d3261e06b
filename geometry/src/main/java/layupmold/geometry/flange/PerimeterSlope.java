package layupmold.geometry.flange;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * How the face leaves its perimeter at a vertex: outward in plan, and at what elevation.
 *
 * @param outX outward unit vector in plan
 * @param outY its other component
 * @param mitre that runs are lengthened by, so that edges before and after the vertex go on as far as the others
 * @param elevationRad of the face's continuation over the plan, between level and the steepest that releases
 * @param up 1 if elevations count with z, -1 if against it
 */
record PerimeterSlope(double outX, double outY, double mitre, double elevationRad, double up) {

    /** A corner turns no mitre farther out than this. */
    static final double MOST_MITRE = 1.5;
    /** Of a stretch of the perimeter seen along the pull, in its length, to say which way is out. */
    private static final double LEAST_PLAN_SHARE = 0.3;
    private static final double MOST_REACH = 100;

    /** @return the offset of a point so far outward and so high */
    Vector3d along(double runMm, double riseMm) {
        return new Vector3d(runMm * mitre * outX, runMm * mitre * outY, up * riseMm);
    }

    /** The perimeter's edges: edge i runs from its vertex i to the next. */
    record Edges(double[] lengths, Vector3d[] continuations, Vector3d[] outward) {

        static Edges of(TriangleMesh face, int[] perimeter) {
            int n = perimeter.length;
            Map<Integer, Integer> edgeFrom = new HashMap<>();
            EdgeTopology topology = EdgeTopology.of(face);
            for (int[] loop : topology.boundaryLoops()) {
                for (int h : loop) {
                    edgeFrom.put(topology.from(h), h);
                }
            }
            Edges edges = new Edges(new double[n], new Vector3d[n], new Vector3d[n]);
            for (int i = 0; i < n; i++) {
                Vector3d along = face.vertex(perimeter[(i + 1) % n]).sub(face.vertex(perimeter[i]));
                Vector3d away = new Vector3d(along).cross(face.areaNormal(edgeFrom.get(perimeter[i]) / 3));
                double length = along.length();
                edges.lengths[i] = length;
                edges.continuations[i] = away.lengthSquared() > 0 ? away.normalize() : away;
                edges.outward[i] = length > 0 ? new Vector3d(along.y, -along.x, 0).div(length) : new Vector3d();
            }
            return edges;
        }

        double lengthMm() {
            return Arrays.stream(lengths).sum();
        }

        /**
         * The slope at vertex {@code i}, averaged over {@code reachMm} of the perimeter to either side, so that a single
         * odd triangle turns nothing. O(vertices within reach).
         */
        PerimeterSlope slope(int i, double up, double reachMm, double steepestRad) {
            Vector3d continuation = new Vector3d();
            Vector3d outward = new Vector3d();
            double planShare = average(i, reachMm, continuation, outward);
            // Where the perimeter runs up the pull or leans over itself, only a longer stretch shows where out is.
            for (double wide = 2 * reachMm; planShare < LEAST_PLAN_SHARE && wide < MOST_REACH * reachMm; wide *= 2) {
                outward.zero();
                planShare = average(i, wide, new Vector3d(), outward);
            }
            double length = Math.hypot(outward.x, outward.y);
            double x = length > 0 ? outward.x / length : 1;
            double y = length > 0 ? outward.y / length : 0;
            double mitre = mitre(i, reachMm);
            double run = mitre * (continuation.x * x + continuation.y * y);
            double rise = up * continuation.z;
            double elevation = rise <= 0 ? 0 : Math.min(Math.atan2(rise, run), steepestRad);
            return new PerimeterSlope(x, y, mitre, elevation, up);
        }

        /** Sums over the edges within reach of vertex {@code i}, near ones counting more; their share seen in plan. */
        double average(int i, double reachMm, Vector3d continuation, Vector3d outward) {
            double[] counted = new double[2];
            addAhead(i, reachMm, continuation, outward, counted);
            addBehind(i, reachMm, continuation, outward, counted);
            return counted[0] > 0 ? counted[1] / counted[0] : 0;
        }

        /** One by the cosine of half the angle between what is outward before vertex {@code i} and after it. */
        double mitre(int i, double reachMm) {
            Vector3d ahead = new Vector3d();
            Vector3d behind = new Vector3d();
            addAhead(i, reachMm, new Vector3d(), ahead, new double[2]);
            addBehind(i, reachMm, new Vector3d(), behind, new double[2]);
            double half = ahead.lengthSquared() > 0 && behind.lengthSquared() > 0 ? ahead.angle(behind) / 2 : 0;
            return 1 / Math.max(1 / MOST_MITRE, Math.cos(half));
        }

        private void addAhead(int i, double reachMm, Vector3d continuation, Vector3d outward, double[] counted) {
            int n = lengths.length;
            double walked = 0;
            for (int k = 0; k < n && (k == 0 || walked < reachMm); k++) {
                add((i + k) % n, walked, reachMm, continuation, outward, counted);
                walked += lengths[(i + k) % n];
            }
        }

        private void addBehind(int i, double reachMm, Vector3d continuation, Vector3d outward, double[] counted) {
            int n = lengths.length;
            double walked = 0;
            for (int k = 1; k <= n && (k == 1 || walked < reachMm); k++) {
                add((i - k + n) % n, walked, reachMm, continuation, outward, counted);
                walked += lengths[(i - k + n) % n];
            }
        }

        private void add(int edge, double walked, double reachMm, Vector3d continuation, Vector3d outward,
                double[] counted) {
            double within = Math.min(lengths[edge], reachMm - walked);
            double middle = (walked + within / 2) / reachMm;
            double weight = within * (1 - middle * middle);
            continuation.fma(weight, continuations[edge]);
            outward.fma(weight, this.outward[edge]);
            counted[0] += weight;
            counted[1] += weight * this.outward[edge].length();
        }
    }
}
