package layupmold.geometry.flange;

import java.util.Arrays;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;

/**
 * The flange's first ring and the band that joins it to the perimeter, tried at shrinking distance until the band
 * crosses neither itself nor the tool surface. Where the tool hangs over beside its perimeter the ring is raised step
 * by step, so that the flange leaves above the overhang. Each try costs O(n log n) in the triangles of the tool.
 *
 * @param xyz x, y, z of the ring's vertices, counter-clockwise in plan
 * @param distanceMm how far it lies from the perimeter in plan
 * @param band triangles: perimeter vertices by their place in it, the ring's after those
 * @param crossing where no try is clear, vertices of the tool in triangles that cross in the first one, some of them
 *     perhaps the perimeter's; of the ring there is nothing then
 */
record FirstRing(double[] xyz, double distanceMm, int[] band, int[] crossing) {

    private static final double[] DISTANCE_SHARES = {1, 0.5, 0.25, 0.1};
    /** Rise by run of a raised ring; the last, of a steep one only, is all that fits under the rounded edge. */
    private static final double[] RISES = {0, 0.5, 1, 2, 4, 8, 1e6};
    private static final int PAIR_LIMIT = 1000;

    /**
     * @param growth of what the perimeter encloses
     * @param distanceMm of the ring from the perimeter in plan, at most
     * @param stepMm most between its corners, which follow the perimeter's height
     * @param leastRiseMm height of the ring over the perimeter
     * @param wallTopMm no vertex is raised higher, counted along {@code up}
     * @param draftDeg what the band keeps to where it can
     * @param steep may the ring be raised as far as that, however near it is?
     * @param up 1 if the wall climbs with z, -1 if against it
     */
    static FirstRing around(TriangleMesh tool, int[] perimeter, PlanGrowth growth, double distanceMm, double stepMm,
            double leastRiseMm, double wallTopMm, double draftDeg, boolean steep, double up,
            CoordinateLattice lattice) {
        int levels = RISES.length - (steep ? 0 : 1);
        PerimeterHeights heights = new PerimeterHeights(tool.xyz(), perimeter);
        double[] corners = new double[3 * perimeter.length];
        for (int i = 0; i < perimeter.length; i++) {
            System.arraycopy(tool.xyz(), 3 * perimeter[i], corners, 3 * i, 3);
        }
        int[] crossing = null;
        for (double share : DISTANCE_SHARES) {
            double distance = share * distanceMm;
            Geometry area = growth.by(distance);
            Polygon outer = PlanRegion.PLANE.createPolygon(((Polygon) area).getExteriorRing());
            if (!outer.difference(area).buffer(-distance).isEmpty() && share > DISTANCE_SHARES[3]) {
                continue;
            }
            double[] xy = PlanRegion.rings(PlanRegion.stepped(outer, stepMm)).get(0);
            int[] rises = new int[xy.length / 2];
            for (int round = 0; round <= 2 * levels; round++) {
                double[] ring = new double[3 * rises.length];
                for (int j = 0; j < rises.length; j++) {
                    ring[3 * j] = lattice.round(xy[2 * j]);
                    ring[3 * j + 1] = lattice.round(xy[2 * j + 1]);
                    double foot = up * heights.at(ring[3 * j], ring[3 * j + 1]);
                    double height = Math.min(wallTopMm, foot + share * leastRiseMm + RISES[rises[j]] * distance);
                    ring[3 * j + 2] = lattice.round(up * height);
                }
                int[] band = PerimeterBand.triangles(corners, ring, draftDeg);
                TriangleMesh sheet = joined(tool, perimeter, ring, band);
                int[] pairs = SelfIntersections.findInvolving(sheet, tool.triangleCount(), PAIR_LIMIT);
                if (pairs.length == 0) {
                    return new FirstRing(ring, distance, band, new int[0]);
                }
                crossing = crossing == null ? ofTool(sheet, pairs, tool.vertexCount()) : crossing;
                if (!raise(rises, levels, pairs, band, tool.triangleCount(), perimeter.length)) {
                    break;
                }
            }
        }
        return new FirstRing(new double[0], 0, new int[0], crossing);
    }

    /** Vertices of the triangles that the tool, whose vertices come first, has itself. */
    static int[] ofTool(TriangleMesh sheet, int[] pairs, int toolVertices) {
        return Arrays.stream(pairs)
                .flatMap(t -> Arrays.stream(sheet.triangles(), 3 * t, 3 * t + 3))
                .filter(v -> v < toolVertices).sorted().distinct().toArray();
    }

    /** Raises what holds crossing triangles up; false if nothing can be raised any more. */
    private static boolean raise(int[] rises, int levels, int[] pairs, int[] band, int firstTriangle, int n) {
        boolean[] hit = new boolean[rises.length];
        for (int t : pairs) {
            for (int i = 0; i < 3 && t >= firstTriangle; i++) {
                int v = band[3 * (t - firstTriangle) + i];
                if (v >= n) {
                    hit[v - n] = true;
                }
            }
        }
        boolean raised = false;
        for (int j = 0; j < rises.length; j++) {
            if (hit[j] && rises[j] < levels - 1) {
                rises[j]++;
                raised = true;
            }
        }
        return raised;
    }

    private static TriangleMesh joined(TriangleMesh tool, int[] perimeter, double[] ring, int[] band) {
        double[] xyz = Arrays.copyOf(tool.xyz(), tool.xyz().length + ring.length);
        System.arraycopy(ring, 0, xyz, tool.xyz().length, ring.length);
        int[] triangles = Arrays.copyOf(tool.triangles(), tool.triangles().length + band.length);
        for (int i = 0; i < band.length; i++) {
            triangles[tool.triangles().length + i] = band[i] < perimeter.length
                    ? perimeter[band[i]] : tool.vertexCount() + band[i] - perimeter.length;
        }
        return new TriangleMesh(xyz, triangles);
    }
}
