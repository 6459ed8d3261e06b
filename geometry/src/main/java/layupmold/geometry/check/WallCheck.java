package layupmold.geometry.check;

import com.carrotsearch.hppc.IntArrayList;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.bvh.VertexDistance;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Whether the wall between what the laminate touches and the mold's outside is as thick as asked.
 *
 * <p>Measures, for every vertex of tool surface, caps and flange wall, the distance to the nearest triangle of side,
 * base, notches and holes, and for every vertex of those the distance to the nearest triangle of the former. That finds
 * the true least distance but where two edges pass each other, as far as either surface is as finely meshed as its
 * curvature asks. Fins of the tool surface itself, as thin as the part's own grooves, are no walls and are reported by
 * the inspection. O(n log n).
 */
public final class WallCheck {

    /** Rounding of plan outlines and 32-bit coordinates. */
    private static final double SLACK_MM = 0.01;

    /**
     * @param leastMm least wall found; infinite if there is no outside
     * @param place where, in the solid's frame
     * @param findings an ERROR if it is less than asked
     */
    public record Result(double leastMm, Place place, List<Finding> findings) {
        public Result {
            findings = List.copyOf(findings);
        }
    }

    private WallCheck() {
    }

    /** @param bvh hierarchy over {@code solid} */
    public static Result check(TriangleMesh solid, byte[] regions, TriangleBvh bvh, double wallMm) {
        TriangleMesh outside = outside(solid, regions);
        // Few triangles, which the many others would hide in the solid's own hierarchy.
        VertexDistance outwards = VertexDistance.least(
                solid.xyz(), vertices(solid, regions, WallCheck::isInside), TriangleBvh.of(outside), null);
        VertexDistance inwards = VertexDistance.least(
                solid.xyz(), vertices(solid, regions, WallCheck::isOutside), bvh, t -> isInside(regions[t]));
        VertexDistance least = inwards.mm() < outwards.mm() ? inwards : outwards;
        Place place = Place.at(solid.vertex(Math.max(0, least.vertex())));
        List<Finding> findings = new ArrayList<>();
        if (least.mm() < wallMm - SLACK_MM) {
            findings.add(Finding.error("check", "wall-too-thin", "The mold's wall is thinner than asked.")
                    .measured(least.mm(), wallMm, "mm").at(place)
                    .advising("Ask for a wider flange or a larger rise, so that the outline clears the part."));
        }
        return new Result(least.mm(), place, findings);
    }

    private interface RegionTest {
        boolean holds(byte region);
    }

    /** What the laminate touches short of the flange's edge. */
    private static boolean isInside(byte region) {
        return region <= MoldRegion.WALL.ordinal() || region == MoldRegion.PLUG.ordinal();
    }

    private static boolean isOutside(byte region) {
        return region > MoldRegion.BORDER.ordinal() && region != MoldRegion.PLUG.ordinal();
    }

    private static int[] vertices(TriangleMesh solid, byte[] regions, RegionTest of) {
        boolean[] seen = new boolean[solid.vertexCount()];
        IntArrayList vertices = new IntArrayList();
        for (int i = 0; i < solid.triangles().length; i++) {
            int vertex = solid.triangles()[i];
            if (!seen[vertex] && of.holds(regions[i / 3])) {
                seen[vertex] = true;
                vertices.add(vertex);
            }
        }
        return vertices.toArray();
    }

    /** On the solid's vertices. */
    private static TriangleMesh outside(TriangleMesh solid, byte[] regions) {
        int[] corners = solid.triangles();
        return new TriangleMesh(solid.xyz(), IntStream.range(0, corners.length)
                .filter(i -> isOutside(regions[i / 3])).map(i -> corners[i]).toArray());
    }
}
