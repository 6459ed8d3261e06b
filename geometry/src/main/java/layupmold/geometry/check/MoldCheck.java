package layupmold.geometry.check;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.Pieces;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.report.CheckFigures;
import org.joml.Vector3d;

/**
 * Whether a finished solid is one a printer can trust: closed, two-manifold, consistently oriented outward, one
 * component, free of self-intersection.
 *
 * <p>The answers are exact for the coordinates given. What the check cannot say: whether the solid is the one asked
 * for; that is measured against the face and the recipe elsewhere. O(n log n).
 */
public final class MoldCheck {

    private static final String STAGE = "check";
    private static final int PAIR_LIMIT = 10_000;

    /**
     * @param figures what was counted
     * @param findings an ERROR for each check that failed, with a place in the solid's frame; empty if all passed
     */
    public record Result(CheckFigures figures, List<Finding> findings) {
        public Result {
            findings = List.copyOf(findings);
        }
    }

    private MoldCheck() {
    }

    public static Result check(TriangleMesh solid, byte[] regions, EdgeTopology topology, TriangleBvh bvh) {
        List<Finding> findings = new ArrayList<>();
        if (topology.boundaryCount() > 0) {
            findings.add(fail("not-closed", "The mold's surface has a hole.")
                    .measured(topology.boundaryCount(), 0.0, "edges")
                    .at(placeOfEdge(solid, topology, EdgeTopology.BOUNDARY)));
        }
        if (topology.nonManifoldCount() > 0) {
            findings.add(fail("not-manifold", "An edge of the mold joins more or fewer than two triangles.")
                    .measured(topology.nonManifoldCount(), 0.0, "edges")
                    .at(placeOfEdge(solid, topology, EdgeTopology.NON_MANIFOLD)));
        }
        int[] pinches = topology.nonManifoldVertices(solid.vertexCount());
        if (pinches.length > 0) {
            findings.add(fail("pinched", "Two sheets of the mold's surface meet in one point.")
                    .measured(pinches.length, 0.0, "vertices").at(place(solid.vertex(pinches[0]))));
        }
        int components = Pieces.count(solid);
        if (components != 1) {
            findings.add(fail("not-one-piece", "The mold is not one piece.").measured(components, 1.0, "pieces"));
        }
        if (topology.isClosedAndOriented() && solid.volume() <= 0) {
            findings.add(fail("inside-out", "The mold's surface faces inward.")
                    .measured(solid.volume(), 0.0, "mm3"));
        }
        int[] pairs = SelfIntersections.find(solid, bvh, PAIR_LIMIT);
        if (pairs.length > 0) {
            findings.add(fail("self-intersection", "The mold's surface cuts through itself: "
                    + words(regions[pairs[0]]) + " meets " + words(regions[pairs[1]]) + ".")
                    .measured(pairs.length / 2, 0.0, "pairs").at(place(solid.centroid(pairs[0]))));
        }
        return new Result(new CheckFigures(topology.boundaryCount(), topology.nonManifoldCount(), pinches.length,
                components, pairs.length / 2), findings);
    }

    private static String words(byte region) {
        return switch (MoldRegion.of(region)) {
            case TOOL -> "the face's offset";
            case CAP -> "an opening's cap";
            case WALL -> "the flange's wall";
            case EDGE -> "the flange's rounded edge";
            case BORDER -> "the level border";
            case SIDE -> "the outside";
            case BASE -> "the base";
            case PLUG -> "a core plug";
            case RECESS -> "a notch or screw hole";
        };
    }

    private static Finding fail(String code, String message) {
        return Finding.error(STAGE, code, message)
                .advising("This is a fault of the mold maker or of a part it cannot handle, not of your printer: "
                        + "smooth the part at this place or try a smaller offset, and report the part.");
    }

    private static Place placeOfEdge(TriangleMesh solid, EdgeTopology topology, int kind) {
        int h = 0;
        while (topology.twin(h) != kind) {
            h++;
        }
        return place(solid.vertex(topology.from(h)).lerp(solid.vertex(topology.to(h)), 0.5));
    }

    private static Place place(Vector3d p) {
        return Place.at(p.x, p.y, p.z);
    }
}
