package layupmold.geometry.face;

import layupmold.geometry.mesh.DisjointSets;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/** The connected pieces of the boundary between kept and other triangles, the widest of which is the perimeter. */
final class BoundaryPieces {

    private final DisjointSets sets;
    private final int perimeter;

    private BoundaryPieces(DisjointSets sets, int perimeter) {
        this.sets = sets;
        this.perimeter = perimeter;
    }

    /** O(n α(n)). */
    static BoundaryPieces of(TriangleMesh mesh, EdgeTopology topology, boolean[] kept) {
        int vertices = mesh.vertexCount();
        DisjointSets sets = new DisjointSets(vertices);
        boolean[] onBoundary = new boolean[vertices];
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            int g = topology.twin(h);
            if (g > h && kept[h / 3] != kept[g / 3]) {
                sets.join(topology.from(h), topology.to(h));
                onBoundary[topology.from(h)] = true;
                onBoundary[topology.to(h)] = true;
            }
        }
        return new BoundaryPieces(sets, widest(mesh, sets, onBoundary));
    }

    private static int widest(TriangleMesh mesh, DisjointSets sets, boolean[] onBoundary) {
        java.util.Map<Integer, double[]> boxes = new java.util.TreeMap<>();
        for (int v = 0; v < onBoundary.length; v++) {
            if (onBoundary[v]) {
                double[] p = {mesh.xyz()[3 * v], mesh.xyz()[3 * v + 1], mesh.xyz()[3 * v + 2]};
                double[] box = boxes.computeIfAbsent(sets.find(v),
                        root -> new double[] {p[0], p[1], p[2], p[0], p[1], p[2]});
                for (int k = 0; k < 3; k++) {
                    box[k] = Math.min(box[k], p[k]);
                    box[3 + k] = Math.max(box[3 + k], p[k]);
                }
            }
        }
        int best = -1;
        double widest = -1;
        for (var entry : boxes.entrySet()) {
            double[] b = entry.getValue();
            double d = Math.hypot(Math.hypot(b[3] - b[0], b[4] - b[1]), b[5] - b[2]);
            if (d > widest) {
                widest = d;
                best = entry.getKey();
            }
        }
        return best;
    }

    boolean isPerimeter(int vertex) {
        return sets.find(vertex) == perimeter;
    }
}
