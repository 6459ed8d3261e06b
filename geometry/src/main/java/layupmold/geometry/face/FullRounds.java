package layupmold.geometry.face;

import java.util.BitSet;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * Finds the folds of coarse full rounds: a half circle of six flats turns as much at each edge as some chamfers do, but
 * goes from one wall round to the other in many turns, none of them large.
 *
 * <p>Followed is the geodesic that leaves the edge's middle square to it, on both sides.
 */
final class FullRounds {

    /** Largest turn at which an edge can be a round's fold; a chamfer of 45 degrees has more even on a curved wall. */
    private static final double MOST_FOLD = Math.toRadians(42);
    private static final double LEAST_FOLD = Math.toRadians(12);
    /** A chamfer on either side of a rim makes four. */
    private static final int LEAST_FOLDS = 5;
    private static final double LEAST_TURN = Math.toRadians(130);
    private static final double CONCAVE = Math.toRadians(-12);
    /** How far a round may reach from one of its folds, in wall thicknesses: it is 1.6 from wall to wall. */
    private static final double REACH = 1.9;
    private static final int MOST_STEPS = 256;
    /** A groove's wall as steep as 55 degrees turns the line of a fold by as much. */
    private static final double IN_LINE = Math.cos(Math.toRadians(60));

    private final TriangleMesh mesh;
    private final EdgeTopology topology;
    private final EdgeAngles edges;

    private int folds;
    private double turned;
    private double mostMm;

    private FullRounds(TriangleMesh mesh, EdgeTopology topology, EdgeAngles edges) {
        this.mesh = mesh;
        this.topology = topology;
        this.edges = edges;
    }

    /**
     * Half-edges that turn more than {@code sharp} and yet are folds of a full round; O(n) and a few triangles each.
     *
     * @param thickness wall thickness by triangle, mm
     */
    static BitSet folds(TriangleMesh mesh, EdgeTopology topology, EdgeAngles edges, float[] thickness, double sharp) {
        FullRounds rounds = new FullRounds(mesh, topology, edges);
        BitSet folds = new BitSet();
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            double turn = edges.turn()[h];
            if (turn > sharp && turn < MOST_FOLD && h < topology.twin(h)
                    && rounds.isFold(h, REACH * thickness[h / 3])) {
                folds.set(h);
                folds.set(topology.twin(h));
            }
        }
        rounds.goOnInLine(folds, sharp);
        return folds;
    }

    /**
     * Adds the edges that carry on the line of a fold. Where a groove runs out over a round, the geodesics on its walls
     * and floor leave the round sideways after a turn or two, and only the folds beside them tell what they are.
     */
    private void goOnInLine(BitSet folds, double sharp) {
        IntQueue queue = new IntQueue();
        folds.stream().forEach(queue::add);
        while (!queue.isEmpty()) {
            int h = queue.take();
            // Each fold is queued with both its half-edges: only the end has to be looked at.
            int out = topology.twin(h);
            do {
                out = topology.twin(EdgeTopology.previous(out));
                if (out >= 0 && !folds.get(out) && edges.turn()[out] > sharp && edges.turn()[out] < MOST_FOLD
                        && along(out).dot(along(h)) > IN_LINE) {
                    folds.set(out);
                    folds.set(topology.twin(out));
                    queue.add(out);
                    queue.add(topology.twin(out));
                }
            } while (out >= 0 && out != topology.twin(h));
        }
    }

    private boolean isFold(int h, double reachMm) {
        folds = 1;
        turned = edges.turn()[h];
        mostMm = reachMm;
        return follow(h) && follow(topology.twin(h)) && folds >= LEAST_FOLDS && turned > LEAST_TURN;
    }

    /** Counts the turns met from half-edge {@code from} on; false if one is too large for a round. */
    private boolean follow(int from) {
        int h = from;
        Vector3d at = mesh.vertex(topology.from(h)).lerp(mesh.vertex(topology.to(h)), 0.5);
        Vector3d way = square(h);
        double gone = 0;
        for (int i = 0; i < MOST_STEPS; i++) {
            h = exit(h, at, way);
            gone += advance(h, at, way);
            double turn = edges.turn()[h];
            if (!(gone <= mostMm) || topology.twin(h) < 0 || turn < CONCAVE) {
                return true;
            }
            if (turn > MOST_FOLD) {
                return false;
            }
            turned += turn;
            folds += turn > LEAST_FOLD ? 1 : 0;
            h = topology.twin(h);
            Vector3d along = along(h);
            double lengthwise = way.dot(along);
            way = square(h).mul(Math.sqrt(Math.max(0, 1 - lengthwise * lengthwise))).fma(lengthwise, along);
        }
        return true;
    }

    private Vector3d along(int h) {
        return mesh.vertex(topology.to(h)).sub(mesh.vertex(topology.from(h))).normalize();
    }

    /** Unit vector in the half-edge's triangle, square to it and inward. */
    private Vector3d square(int h) {
        return edges.normal(h / 3).cross(along(h));
    }

    /** The side through which a line that came in over half-edge {@code h} leaves its triangle. */
    private int exit(int h, Vector3d at, Vector3d way) {
        Vector3d apex = mesh.vertex(topology.from(EdgeTopology.previous(h))).sub(at);
        return edges.normal(h / 3).dot(way.cross(apex, apex)) > 0 ? EdgeTopology.next(h) : EdgeTopology.previous(h);
    }

    /** Moves {@code at} along {@code way} to the line of half-edge {@code h}; by how much, mm. */
    private double advance(int h, Vector3d at, Vector3d way) {
        Vector3d outward = square(h).negate();
        double step = mesh.vertex(topology.from(h)).sub(at).dot(outward) / way.dot(outward);
        at.fma(step, way);
        return Math.max(0, step);
    }
}
