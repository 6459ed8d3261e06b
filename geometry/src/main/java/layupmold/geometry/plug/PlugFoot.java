package layupmold.geometry.plug;

import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * A connected patch across one opening of the offset surface, to be taken out, and the loop around it, on which a plug
 * will stand.
 *
 * @param triangles of the patch
 * @param loop vertices of its edge, the patch on the left; empty unless that is one loop that visits each vertex once
 */
record PlugFoot(int[] triangles, int[] loop) {

    /** One for each connected patch of region {@link MoldRegion#PLUG}, by least triangle. O(n). */
    static List<PlugFoot> find(byte[] regions, EdgeTopology topology) {
        boolean[] left = new boolean[regions.length];
        for (int t = 0; t < left.length; t++) {
            left[t] = regions[t] == MoldRegion.PLUG.ordinal();
        }
        return pieces(left, topology);
    }

    /**
     * What of the patch keeps a distance from its edge; the largest piece. O(n) and O(k log k) for k triangles of the
     * patch.
     *
     * @return null if nothing does
     */
    PlugFoot inside(TriangleMesh mesh, EdgeTopology topology, double distanceMm) {
        int[] ends = Arrays.stream(edge(topology))
                .flatMap(h -> IntStream.of(topology.from(h), topology.to(h))).toArray();
        TriangleBvh edge = TriangleBvh.of(TriangleMesh.ofSegments(mesh.xyz(), ends));
        NearestPoint nearest = new NearestPoint();
        double[] xyz = mesh.xyz();
        boolean[] left = new boolean[mesh.triangleCount()];
        for (int t : triangles) {
            left[t] = true;
            for (int i = 3 * t; i < 3 * t + 3; i++) {
                int v = 3 * mesh.triangles()[i];
                edge.nearest(xyz[v], xyz[v + 1], xyz[v + 2], distanceMm, nearest);
                left[t] &= nearest.triangle < 0;
            }
        }
        PlugFoot largest = null;
        for (PlugFoot piece : pieces(left, topology)) {
            largest = largest == null || piece.triangles.length > largest.triangles.length ? piece : largest;
        }
        return largest;
    }

    /** Half-edges of the patch along its edge, be that one loop or not. */
    int[] edge(EdgeTopology topology) {
        boolean[] isPatch = new boolean[topology.halfEdgeCount() / 3];
        for (int t : triangles) {
            isPatch[t] = true;
        }
        return Arrays.stream(triangles).flatMap(t -> IntStream.range(3 * t, 3 * t + 3))
                .filter(h -> isEdge(h, isPatch, topology)).toArray();
    }

    /** The patch's middle. */
    Place place(TriangleMesh mesh) {
        double[] sum = new double[3];
        for (int t : triangles) {
            for (int k = 0; k < 3; k++) {
                sum[k] += mesh.centroid(t).get(k) / triangles.length;
            }
        }
        return Place.at(sum[0], sum[1], sum[2]);
    }

    private static List<PlugFoot> pieces(boolean[] isPatch, EdgeTopology topology) {
        List<PlugFoot> pieces = new ArrayList<>();
        boolean[] seen = new boolean[isPatch.length];
        for (int t = 0; t < isPatch.length; t++) {
            if (isPatch[t] && !seen[t]) {
                int[] patch = patch(t, isPatch, topology, seen);
                pieces.add(new PlugFoot(patch, loop(patch, isPatch, topology)));
            }
        }
        return pieces;
    }

    private static int[] patch(int first, boolean[] isPatch, EdgeTopology topology, boolean[] seen) {
        int[] patch = new int[64];
        int size = 0;
        ArrayDeque<Integer> queue = new ArrayDeque<>();
        queue.add(first);
        seen[first] = true;
        while (!queue.isEmpty()) {
            int t = queue.poll();
            if (size == patch.length) {
                patch = Arrays.copyOf(patch, 2 * size);
            }
            patch[size++] = t;
            for (int h = 3 * t; h < 3 * t + 3; h++) {
                int u = topology.twin(h) < 0 ? -1 : topology.twin(h) / 3;
                if (u >= 0 && !seen[u] && isPatch[u]) {
                    seen[u] = true;
                    queue.add(u);
                }
            }
        }
        return Arrays.copyOf(patch, size);
    }

    private static int[] loop(int[] patch, boolean[] isPatch, EdgeTopology topology) {
        int start = -1;
        int edges = 0;
        for (int t : patch) {
            for (int h = 3 * t; h < 3 * t + 3; h++) {
                if (isEdge(h, isPatch, topology)) {
                    start = h;
                    edges++;
                }
            }
        }
        int[] loop = new int[edges];
        int h = start;
        for (int i = 0; i < edges; i++) {
            if (i > 0 && h == start) {
                return new int[0];
            }
            loop[i] = topology.from(h);
            h = EdgeTopology.next(h);
            while (!isEdge(h, isPatch, topology)) {
                h = EdgeTopology.next(topology.twin(h));
            }
        }
        return Arrays.stream(loop).distinct().count() == edges ? loop : new int[0];
    }

    private static boolean isEdge(int h, boolean[] isPatch, EdgeTopology topology) {
        return topology.twin(h) < 0 || !isPatch[topology.twin(h) / 3];
    }
}
