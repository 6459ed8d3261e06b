package layupmold.geometry.face;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * A face's boundary, told apart.
 *
 * @param perimeter the loop with the widest bounds; null if the face has no boundary
 * @param openings the others, longest first
 * @param perimeterMm length of the perimeter
 */
record FaceLoops(int[] perimeter, List<int[]> openings, double perimeterMm) {

    static FaceLoops of(TriangleMesh mesh, EdgeTopology topology) {
        List<int[]> loops = new ArrayList<>(topology.boundaryLoops());
        int[] perimeter = null;
        double widest = -1;
        for (int[] loop : loops) {
            double width = width(mesh, topology, loop);
            if (width > widest) {
                widest = width;
                perimeter = loop;
            }
        }
        loops.remove(perimeter);
        loops.sort(Comparator.comparingDouble((int[] loop) -> -length(mesh, topology, loop)));
        return new FaceLoops(perimeter, List.copyOf(loops),
                perimeter == null ? 0 : length(mesh, topology, perimeter));
    }

    private static double width(TriangleMesh mesh, EdgeTopology topology, int[] loop) {
        double[] low = {Double.MAX_VALUE, Double.MAX_VALUE, Double.MAX_VALUE};
        double[] high = {-Double.MAX_VALUE, -Double.MAX_VALUE, -Double.MAX_VALUE};
        for (int h : loop) {
            for (int k = 0; k < 3; k++) {
                double x = mesh.xyz()[3 * topology.from(h) + k];
                low[k] = Math.min(low[k], x);
                high[k] = Math.max(high[k], x);
            }
        }
        return Math.hypot(Math.hypot(high[0] - low[0], high[1] - low[1]), high[2] - low[2]);
    }

    /** Length of a loop of half-edges, mm. */
    static double length(TriangleMesh mesh, EdgeTopology topology, int[] loop) {
        double sum = 0;
        for (int h : loop) {
            sum += mesh.vertex(topology.from(h)).distance(mesh.vertex(topology.to(h)));
        }
        return sum;
    }
}
