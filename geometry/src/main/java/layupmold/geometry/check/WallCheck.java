package layupmold.geometry.check;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/**
 * Whether the wall between what the laminate touches and the mold's outside is as thick as asked.
 *
 * <p>Measures, for every vertex of tool surface, caps and flange wall, the distance to the nearest side or base
 * triangle. Those are large flat triangles, so vertex against triangle finds the true least distance as far as the
 * inner surface is as finely meshed as its curvature asks. Fins of the tool surface itself, as thin as the part's own
 * grooves, are no walls and are reported by the inspection. O(n log n).
 */
public final class WallCheck {

    /** Rounding of plan outlines and 32-bit coordinates. */
    private static final double SLACK_MM = 0.01;
    private static final int GRAIN = 1 << 12;

    /**
     * @param leastMm least wall found; infinite if there is no side or base
     * @param place where on the tool side, in the solid's frame
     * @param findings an ERROR if it is less than asked
     */
    public record Result(double leastMm, Place place, List<Finding> findings) {
        public Result {
            findings = List.copyOf(findings);
        }
    }

    private WallCheck() {
    }

    public static Result check(TriangleMesh solid, byte[] regions, double wallMm) {
        TriangleMesh outside = part(solid, regions, MoldRegion.SIDE, MoldRegion.BASE);
        TriangleBvh bvh = TriangleBvh.of(outside);
        int[] vertices = innerVertices(solid, regions);
        double[] xyz = solid.xyz();
        int chunks = Parallel.chunkCount(vertices.length, GRAIN);
        double[] least = new double[chunks];
        int[] where = new int[chunks];
        Parallel.forRanges(vertices.length, GRAIN, (chunk, from, to) -> {
            NearestPoint nearest = new NearestPoint();
            double best = Double.POSITIVE_INFINITY;
            for (int i = from; i < to; i++) {
                int v = 3 * vertices[i];
                bvh.nearest(xyz[v], xyz[v + 1], xyz[v + 2], Math.min(best, 1e6), nearest);
                if (nearest.triangle >= 0 && nearest.distance() < best) {
                    best = nearest.distance();
                    where[chunk] = v;
                }
            }
            least[chunk] = best;
        });
        int best = 0;
        for (int c = 1; c < chunks; c++) {
            best = least[c] < least[best] ? c : best;
        }
        int v = where[best];
        Place place = Place.at(xyz[v], xyz[v + 1], xyz[v + 2]);
        List<Finding> findings = new ArrayList<>();
        if (least[best] < wallMm - SLACK_MM) {
            findings.add(Finding.error("check", "wall-too-thin", "The mold's wall is thinner than asked.")
                    .measured(least[best], wallMm, "mm").at(place)
                    .advising("Ask for a wider flange or a larger rise, so that the outline clears the part."));
        }
        return new Result(least[best], place, findings);
    }

    private static TriangleMesh part(TriangleMesh solid, byte[] regions, MoldRegion first, MoldRegion second) {
        int[] corners = solid.triangles();
        int[] kept = new int[corners.length];
        int n = 0;
        for (int t = 0; t < regions.length; t++) {
            if (regions[t] == first.ordinal() || regions[t] == second.ordinal()) {
                System.arraycopy(corners, 3 * t, kept, n, 3);
                n += 3;
            }
        }
        return new TriangleMesh(solid.xyz(), Arrays.copyOf(kept, n));
    }

    private static int[] innerVertices(TriangleMesh solid, byte[] regions) {
        boolean[] inner = new boolean[solid.vertexCount()];
        int count = 0;
        for (int t = 0; t < regions.length; t++) {
            if (regions[t] <= MoldRegion.WALL.ordinal()) {
                for (int k = 0; k < 3; k++) {
                    int v = solid.triangles()[3 * t + k];
                    count += inner[v] ? 0 : 1;
                    inner[v] = true;
                }
            }
        }
        int[] vertices = new int[count];
        for (int v = 0, i = 0; v < inner.length; v++) {
            if (inner[v]) {
                vertices[i++] = v;
            }
        }
        return vertices;
    }
}
