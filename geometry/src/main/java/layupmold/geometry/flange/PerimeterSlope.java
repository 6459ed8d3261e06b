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
    /** Of which the plan alone says it. */
    private static final double FULL_PLAN_SHARE = 0.6;
    private static final double MOST_REACH = 100;

    /** @return the offset of a point so far outward and so high */
    Vector3d along(double runMm, double riseMm) {
        return new Vector3d(runMm * mitre * outX, runMm * mitre * outY, up * riseMm);
    }

    /**
     * The perimeter's edges: edge i runs from its vertex i to the next.
     *
     * @param lengths mm
     * @param continuations unit vectors in which the face would go on
     * @param outward in plan, as long as the edge's share seen there
     * @param leaving the same, but level with the continuation where the edge runs up the pull
     */
    record Edges(double[] lengths, Vector3d[] continuations, Vector3d[] outward, Vector3d[] leaving) {

        static Edges of(TriangleMesh face, int[] perimeter) {
            int n = perimeter.length;
            Map<Integer, Integer> edgeFrom = new HashMap<>();
            EdgeTopology topology = EdgeTopology.of(face);
            for (int[] loop : topology.boundaryLoops()) {
                for (int h : loop) {
                    edgeFrom.put(topology.from(h), h);
                }
            }
            Edges edges = new Edges(new double[n], new Vector3d[n], new Vector3d[n], new Vector3d[n]);
            for (int i = 0; i < n; i++) {
                Vector3d along = face.vertex(perimeter[(i + 1) % n]).sub(face.vertex(perimeter[i]));
                Vector3d away = new Vector3d(along).cross(face.areaNormal(edgeFrom.get(perimeter[i]) / 3));
                double length = along.length();
                edges.lengths[i] = length;
                edges.continuations[i] = away.lengthSquared() > 0 ? away.normalize() : away;
                edges.outward[i] = length > 0 ? new Vector3d(along.y, -along.x, 0).div(length) : new Vector3d();
                edges.leaving[i] = leaving(edges.outward[i], edges.continuations[i]);
            }
            return edges;
        }

        private static Vector3d leaving(Vector3d outward, Vector3d continuation) {
            double unseen = (FULL_PLAN_SHARE - outward.length()) / (FULL_PLAN_SHARE - LEAST_PLAN_SHARE);
            Vector3d level = new Vector3d(continuation.x, continuation.y, 0);
            return new Vector3d(outward).lerp(level, Math.max(0, Math.min(1, unseen)));
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
            Vector3d out = new Vector3d();
            average(i, reachMm, continuations, continuation);
            average(i, reachMm, leaving, out);
            Vector3d wide = outOfLongerStretch(i, reachMm);
            if (wide != null && wide.dot(out) <= 0) {
                // The face curls back in there.
                out = wide;
            }
            double length = Math.hypot(out.x, out.y);
            double x = length > 0 ? out.x / length : 1;
            double y = length > 0 ? out.y / length : 0;
            double mitre = mitre(i, reachMm);
            double run = mitre * (continuation.x * x + continuation.y * y);
            double rise = up * continuation.z;
            double elevation = rise <= 0 ? 0 : Math.min(Math.atan2(rise, run), steepestRad);
            return new PerimeterSlope(x, y, mitre, elevation, up);
        }

        /** Where the perimeter runs up the pull, only a longer stretch shows where out is in plan; null elsewhere. */
        private Vector3d outOfLongerStretch(int i, double reachMm) {
            double reach = reachMm;
            Vector3d out = new Vector3d();
            double planShare = average(i, reach, outward, out);
            if (planShare >= LEAST_PLAN_SHARE) {
                return null;
            }
            while (planShare < LEAST_PLAN_SHARE && 2 * reach < MOST_REACH * reachMm) {
                reach *= 2;
                out.zero();
                planShare = average(i, reach, outward, out);
            }
            return out;
        }

        /**
         * Adds up what edges within reach of vertex {@code i} have, near ones counting more.
         *
         * @return mean length of what was added
         */
        double average(int i, double reachMm, Vector3d[] of, Vector3d sum) {
            double[] counted = new double[2];
            addAhead(i, reachMm, of, sum, counted);
            addBehind(i, reachMm, of, sum, counted);
            return counted[0] > 0 ? counted[1] / counted[0] : 0;
        }

        /** One by the cosine of half the angle between what is outward before vertex {@code i} and after it. */
        double mitre(int i, double reachMm) {
            Vector3d ahead = new Vector3d();
            Vector3d behind = new Vector3d();
            addAhead(i, reachMm, leaving, ahead, new double[2]);
            addBehind(i, reachMm, leaving, behind, new double[2]);
            double half = ahead.lengthSquared() > 0 && behind.lengthSquared() > 0 ? ahead.angle(behind) / 2 : 0;
            return 1 / Math.max(1 / MOST_MITRE, Math.cos(half));
        }

        private void addAhead(int i, double reachMm, Vector3d[] of, Vector3d sum, double[] counted) {
            int n = lengths.length;
            double walked = 0;
            for (int k = 0; k < n && (k == 0 || walked < reachMm); k++) {
                add((i + k) % n, walked, reachMm, of, sum, counted);
                walked += lengths[(i + k) % n];
            }
        }

        private void addBehind(int i, double reachMm, Vector3d[] of, Vector3d sum, double[] counted) {
            int n = lengths.length;
            double walked = 0;
            for (int k = 1; k <= n && (k == 1 || walked < reachMm); k++) {
                add((i - k + n) % n, walked, reachMm, of, sum, counted);
                walked += lengths[(i - k + n) % n];
            }
        }

        private void add(int edge, double walked, double reachMm, Vector3d[] of, Vector3d sum, double[] counted) {
            double within = Math.min(lengths[edge], reachMm - walked);
            double middle = (walked + within / 2) / reachMm;
            double weight = within * (1 - middle * middle);
            sum.fma(weight, of[edge]);
            counted[0] += weight;
            counted[1] += weight * of[edge].length();
        }
    }
}
