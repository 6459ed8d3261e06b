package layupmold.geometry.fillet;

import com.carrotsearch.hppc.DoubleArrayList;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/** Balls that touch edges which bend away from them, at several points and turns: those may look into a slit. */
final class Lips {

    /** Edges that bend by less have no turns to speak of: cosine of 12°. */
    private static final double FLAT = 0.978;
    private static final double TURN_RAD = StrictMath.toRadians(12);
    private static final double SPACING_BY_RADIUS = 0.5;
    private static final int MOST_POINTS = 1000;

    private Lips() {
    }

    /** @return x, y, z of centres on edges near the given places; some of the balls may cut in elsewhere */
    static double[] centres(RollingBall rolling, EdgeTopology topology, CellSet near) {
        TriangleMesh ground = rolling.ground();
        double[] normals = rolling.normals();
        DoubleArrayList centres = new DoubleArrayList();
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            if (topology.twin(h) <= h) {
                continue;
            }
            int t = h - h % 3;
            int u = topology.twin(h) - topology.twin(h) % 3;
            Vector3d n = new Vector3d(normals[t], normals[t + 1], normals[t + 2]);
            Vector3d m = new Vector3d(normals[u], normals[u + 1], normals[u + 2]);
            double cosine = n.dot(m);
            if (cosine > FLAT) {
                continue;
            }
            Vector3d from = ground.vertex(topology.from(h));
            Vector3d to = ground.vertex(topology.to(h));
            Vector3d across = ground.vertex(topology.from(EdgeTopology.previous(topology.twin(h)))).sub(from);
            if (across.dot(n) < 0) {
                add(rolling, near, from, to, n, m, StrictMath.acos(Math.max(-1, cosine)), centres);
            }
        }
        return centres.toArray();
    }

    private static void add(RollingBall rolling, CellSet near, Vector3d from, Vector3d to, Vector3d n, Vector3d m,
            double angle, DoubleArrayList centres) {
        int count = (int) Math.min(
                MOST_POINTS, Math.ceil(from.distance(to) / (SPACING_BY_RADIUS * rolling.radiusMm())));
        int turns = Math.max(2, (int) Math.ceil(angle / TURN_RAD));
        for (int i = 0; i <= count; i++) {
            Vector3d p = new Vector3d(from).lerp(to, (double) i / count);
            if (!near.contains(p.x, p.y, p.z)) {
                continue;
            }
            for (int k = 1; k < turns; k++) {
                Vector3d way = new Vector3d(n).lerp(m, (double) k / turns);
                if (way.lengthSquared() > 0) {
                    way.normalize(rolling.radiusMm()).add(p);
                    centres.add(way.x, way.y);
                    centres.add(way.z);
                }
            }
        }
    }
}
