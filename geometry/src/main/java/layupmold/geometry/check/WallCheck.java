package layupmold.geometry.check;

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

    public static Result check(TriangleMesh solid, byte[] regions, double wallMm) {
        TriangleMesh inside = part(solid, regions, true);
        TriangleMesh outside = part(solid, regions, false);
        VertexDistance outwards = least(inside, outside);
        VertexDistance inwards = least(outside, inside);
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

    private static VertexDistance least(TriangleMesh from, TriangleMesh to) {
        int[] vertices = IntStream.of(from.triangles()).distinct().toArray();
        return VertexDistance.least(from.xyz(), vertices, TriangleBvh.of(to));
    }

    /** What the laminate touches short of the flange's edge, or the outside, on the solid's vertices. */
    private static TriangleMesh part(TriangleMesh solid, byte[] regions, boolean inside) {
        int[] corners = solid.triangles();
        int[] kept = IntStream.range(0, corners.length)
                .filter(i -> regions[i / 3] == MoldRegion.PLUG.ordinal() ? inside
                        : inside ? regions[i / 3] <= MoldRegion.WALL.ordinal()
                        : regions[i / 3] > MoldRegion.BORDER.ordinal())
                .map(i -> corners[i]).toArray();
        return new TriangleMesh(solid.xyz(), kept);
    }
}
