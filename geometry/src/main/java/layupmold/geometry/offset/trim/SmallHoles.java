package layupmold.geometry.offset.trim;

import com.carrotsearch.hppc.IntArrayList;
import java.util.List;
import java.util.function.IntPredicate;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.Planes;
import layupmold.geometry.mesh.PolygonSplits;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Closes the holes that single facets too small for the offset leave: by the triangulation of least area (Barequet and
 * Sharir, "Filling gaps in the boundary of a polyhedron", 1995). O(n³) for a hole of n edges, which is small.
 */
final class SmallHoles {

    private static final int MOST_EDGES = 24;
    /** One or two facets are missing: as wide as those are. */
    private static final int FACET_EDGES = 5;
    private static final double WIDEST_MM = 2;

    private SmallHoles() {
    }

    /**
     * @param isOutline whether a vertex lies on the boundary that is no hole
     * @param sources receives one for each triangle added, that of a triangle beside it
     * @return the mesh with every small hole closed; the rest is left for the caller to find
     */
    static TriangleMesh close(TriangleMesh mesh, IntPredicate isOutline, IntArrayList sources) {
        EdgeTopology topology = EdgeTopology.of(mesh);
        List<int[]> loops = topology.boundaryLoops();
        IntArrayList triangles = IntArrayList.from(mesh.triangles());
        for (int[] loop : loops) {
            if (loop.length <= MOST_EDGES && !isOutline.test(topology.from(loop[0]))
                    && (loop.length <= FACET_EDGES || width(mesh, topology, loop) <= WIDEST_MM)) {
                fill(mesh, topology, loop, triangles, sources);
            }
        }
        return new TriangleMesh(mesh.xyz(), triangles.toArray());
    }

    private static double width(TriangleMesh mesh, EdgeTopology topology, int[] loop) {
        double width = 0;
        for (int h : loop) {
            width = Math.max(width, mesh.vertex(topology.from(h)).distance(mesh.vertex(topology.from(loop[0]))));
        }
        return width;
    }

    private static void fill(TriangleMesh mesh, EdgeTopology topology, int[] loop, IntArrayList triangles,
            IntArrayList sources) {
        int n = loop.length;
        // The hole's corners run against the half-edges beside it.
        int[] corners = new int[n];
        for (int i = 0; i < n; i++) {
            corners[i] = topology.from(loop[n - 1 - i]);
        }
        double[][] cost = new double[n][n];
        int[] best = new int[n * n];
        for (int span = 2; span < n; span++) {
            for (int i = 0; i + span < n; i++) {
                cost[i][i + span] = Double.POSITIVE_INFINITY;
                for (int k = i + 1; k < i + span; k++) {
                    double sum = cost[i][k] + cost[k][i + span] + area(mesh, corners[i], corners[k], corners[i + span]);
                    if (sum < cost[i][i + span]) {
                        cost[i][i + span] = sum;
                        best[i * n + i + span] = k;
                    }
                }
            }
        }
        int source = sources.get(loop[0] / 3);
        int[] filling = PolygonSplits.triangles(n, best);
        for (int corner : filling) {
            triangles.add(corners[corner]);
        }
        for (int t = 0; t < filling.length; t += 3) {
            sources.add(source);
        }
    }

    private static double area(TriangleMesh mesh, int a, int b, int c) {
        double[] n = Planes.normal(mesh.xyz(), a, b, c);
        return Math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]);
    }
}
