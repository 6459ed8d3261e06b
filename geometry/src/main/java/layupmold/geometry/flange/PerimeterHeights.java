package layupmold.geometry.flange;

import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.TriangleMesh;

/** Height of the perimeter at its point nearest in plan. Built in O(n log n); a query costs O(log n). */
final class PerimeterHeights {

    private final double[] xyz;
    private final int[] ring;
    private final TriangleBvh segments;
    private final NearestPoint nearest = new NearestPoint();

    /** Keeps the ring's segments, flattened. */
    PerimeterHeights(double[] xyz, int[] ring) {
        this.xyz = xyz;
        this.ring = ring;
        double[] flat = new double[3 * ring.length];
        int[] ends = new int[2 * ring.length];
        for (int i = 0; i < ring.length; i++) {
            flat[3 * i] = xyz[3 * ring[i]];
            flat[3 * i + 1] = xyz[3 * ring[i] + 1];
            ends[2 * i] = i;
            ends[2 * i + 1] = (i + 1) % ring.length;
        }
        segments = TriangleBvh.of(TriangleMesh.ofSegments(flat, ends));
    }

    double at(double x, double y) {
        segments.nearest(x, y, 0, 1e9, nearest);
        int a = 3 * ring[nearest.triangle];
        int b = 3 * ring[(nearest.triangle + 1) % ring.length];
        double dx = xyz[b] - xyz[a];
        double dy = xyz[b + 1] - xyz[a + 1];
        double length = dx * dx + dy * dy;
        double share = length > 0 ? ((nearest.x - xyz[a]) * dx + (nearest.y - xyz[a + 1]) * dy) / length : 0;
        return xyz[a + 2] + share * (xyz[b + 2] - xyz[a + 2]);
    }
}
