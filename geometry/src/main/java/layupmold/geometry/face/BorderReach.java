package layupmold.geometry.face;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/** What lies near some loops of a border on a mesh, along its edges. */
final class BorderReach {

    private final TriangleMesh mesh;
    private final float[] distance;
    private final boolean[] perimeter;
    private final IntQueue queue = new IntQueue();

    BorderReach(TriangleMesh mesh) {
        this.mesh = mesh;
        this.distance = new float[mesh.vertexCount()];
        this.perimeter = new boolean[mesh.vertexCount()];
        Arrays.fill(distance, Float.POSITIVE_INFINITY);
    }

    /** Begins at a vertex, on the perimeter or an opening. */
    void start(int v, boolean onPerimeter) {
        distance[v] = 0;
        perimeter[v] = onPerimeter;
        queue.add(v);
    }

    boolean isEmpty() {
        return queue.isEmpty();
    }

    /** Goes on from where it began, each vertex to the loop that is nearest; O(n). */
    void spread(EdgeTopology topology, double reachMm) {
        int[] leaving = topology.leaving(distance.length);
        while (!queue.isEmpty()) {
            int v = queue.take();
            int h = leaving[v];
            do {
                relax(v, topology.to(h), reachMm);
                relax(v, topology.from(EdgeTopology.previous(h)), reachMm);
                h = topology.twin(EdgeTopology.previous(h));
            } while (h >= 0 && h != leaving[v]);
        }
    }

    private void relax(int v, int u, double reachMm) {
        float d = distance[v] + (float) mesh.vertex(v).distance(mesh.vertex(u));
        if (d < distance[u] && d <= reachMm) {
            distance[u] = d;
            perimeter[u] = perimeter[v];
            queue.add(u);
        }
    }

    int vertexCount() {
        return distance.length;
    }

    /** Whether a vertex's nearest loop is the perimeter. */
    boolean isAtPerimeter(int v) {
        return perimeter[v];
    }

    /** Whether a triangle has no corner within {@code mm}. */
    boolean isBeyond(int t, double mm) {
        return distance(t, 0) > mm && distance(t, 1) > mm && distance(t, 2) > mm;
    }

    /** Triangles that lie within reach with all of their corners. */
    boolean[] triangles() {
        boolean[] reached = new boolean[mesh.triangleCount()];
        for (int t = 0; t < reached.length; t++) {
            reached[t] = Float.isFinite(distance(t, 0) + distance(t, 1) + distance(t, 2));
        }
        return reached;
    }

    /** Of a triangle's corner from the nearest loop along edges, mm; infinite beyond reach. */
    float distance(int t, int corner) {
        return distance[mesh.triangles()[3 * t + corner]];
    }
}
