package layupmold.geometry.fillet;

import com.carrotsearch.hppc.DoubleArrayList;
import com.carrotsearch.hppc.IntArrayList;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/** The sheet's concave edges that a ball would fill deep enough to count, with points along them. */
final class Creases {

    /** Where less than this is left between the sides, no ball rests on both. */
    private static final double KNIFE_COSINE = 0.05;
    private static final int MOST_POINTS = 1000;

    /** Half-edges, one an edge. */
    final IntArrayList edges = new IntArrayList();
    /** Points along them, no farther apart than the radius. */
    final DoubleArrayList points = new DoubleArrayList();
    /** Centre of the ball that touches both sides' planes, for most of the points. */
    final DoubleArrayList centres = new DoubleArrayList();

    private Creases() {
    }

    static Creases of(RollingBall rolling, EdgeTopology topology) {
        Creases creases = new Creases();
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            if (topology.twin(h) > h) {
                creases.consider(rolling, topology, h);
            }
        }
        return creases;
    }

    private void consider(RollingBall rolling, EdgeTopology topology, int h) {
        TriangleMesh ground = rolling.ground();
        double[] n = rolling.normals();
        int t = h - h % 3;
        int u = topology.twin(h) - topology.twin(h) % 3;
        double cosine = n[t] * n[u] + n[t + 1] * n[u + 1] + n[t + 2] * n[u + 2];
        double half = Math.sqrt(Math.max(0, (1 + cosine) / 2));
        if (rolling.radiusMm() * (1 - half) < rolling.leastFillMm() * half) {
            return;
        }
        Vector3d from = ground.vertex(topology.from(h));
        Vector3d to = ground.vertex(topology.to(h));
        Vector3d across = ground.vertex(topology.from(EdgeTopology.previous(topology.twin(h)))).sub(from);
        if (across.dot(n[t], n[t + 1], n[t + 2]) <= 0) {
            return;
        }
        edges.add(h);
        int count = (int) Math.min(MOST_POINTS, Math.ceil(from.distance(to) / rolling.radiusMm()));
        Vector3d up = new Vector3d(n[t] + n[u], n[t + 1] + n[u + 1], n[t + 2] + n[u + 2]);
        for (int i = 0; i < count; i++) {
            Vector3d p = new Vector3d(from).lerp(to, (i + 0.5) / count);
            points.add(p.x, p.y);
            points.add(p.z);
            if (half > KNIFE_COSINE) {
                // The sum of both normals is 2·half long, the centre radius / half away.
                p.fma(rolling.radiusMm() / (2 * half * half), up);
                centres.add(p.x, p.y);
                centres.add(p.z);
            }
        }
    }
}
