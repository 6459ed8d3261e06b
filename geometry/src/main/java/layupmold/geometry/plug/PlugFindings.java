package layupmold.geometry.plug;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.IntStream;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.OpeningSpec;
import org.joml.Vector3d;

/** Says of each opening what its plug does and does not do. */
final class PlugFindings {

    private static final String STAGE = "plug";
    /** Draft short of the asked by more than this is said. */
    private static final double DRAFT_SLACK_DEG = 0.1;
    /** Where the face leans less than this from the pull, the laminate lies along a plug rather than against it. */
    private static final double STEEP_DEG = 30;

    private final TriangleMesh tool;
    private final EdgeTopology topology;
    private final OpeningSpec spec;
    private final List<Finding> findings = new ArrayList<>();

    /** @param tool the surface before plugs are raised */
    PlugFindings(TriangleMesh tool, EdgeTopology topology, OpeningSpec spec) {
        this.tool = tool;
        this.topology = topology;
        this.spec = spec;
    }

    List<Finding> all(int made) {
        List<Finding> all = new ArrayList<>(findings);
        if (made > 0) {
            all.add(0, Finding.info(STAGE, "core-plugs", made == 1 ? "A core plug stands in one opening."
                    : "Core plugs stand in " + made + " openings.")
                    .advising("Cut the cloth out where a plug stands and press its edge against the wall; wax the plugs "
                            + "well. Sand off flush what resin climbs a wall."));
        }
        return all;
    }

    void leftCapped(PlugFoot opening, Unfit unfit) {
        add(Finding.warning(STAGE, unfit.code, "An opening is capped instead of plugged: " + unfit.getMessage() + ".")
                .advising("Cut it out along its edge after demolding; no trim line is engraved there. A lower plug or "
                        + "less draft may fit, else ask for capped openings."), opening);
    }

    void standing(PlugFoot opening, CorePlug plug) {
        if (plug.leastDraftDeg() < spec.plugDraftDeg() - DRAFT_SLACK_DEG) {
            add(Finding.warning(STAGE, "plug-little-draft", String.format(Locale.ROOT,
                    "A core plug's wall has only %.1f° of draft.", plug.leastDraftDeg()))
                    .measured(plug.leastDraftDeg(), spec.plugDraftDeg(), "deg")
                    .advising("Ask for more draft, or smooth the opening's edge in the model."), opening);
        }
        if (plug.ledge() > 0) {
            double back = setBackMm(opening, plug);
            add(Finding.info(STAGE, "plug-set-back", String.format(Locale.ROOT,
                    "The offset was rebuilt at an opening's edge; its core plug stands %.1f mm inside it on average.", back))
                    .measured(back, null, "mm").advising("File the opening to size where that matters."), opening);
        }
        if (steepShare(opening) > 0.5) {
            add(Finding.info(STAGE, "plug-beside-steep-edge", "Around an opening the face turns along the pull, so the "
                    + "laminate's edge lies along the core plug's wall instead of ending on it.")
                    .advising("Trim it where the plug's wall begins. To have it moulded net, model the opening with an "
                            + "edge square to the face."), opening);
        }
    }

    private void add(Finding finding, PlugFoot opening) {
        findings.add(finding.at(opening.place(tool)));
    }

    /** Cap left standing around the plug, in plan, by length of the opening's edge. */
    private double setBackMm(PlugFoot opening, CorePlug plug) {
        double strip = planAreaMm2(opening) - planAreaMm2(plug.foot()) + plug.ledgePlanMm2();
        double length = IntStream.of(opening.edge(topology)).mapToDouble(this::lengthMm).sum();
        return strip / length;
    }

    private double planAreaMm2(PlugFoot patch) {
        double area = 0;
        for (int t : patch.triangles()) {
            area += tool.areaNormal(t).z / 2;
        }
        return area;
    }

    /** Share of the opening's edge, by length, beside steep triangles of the face. */
    private double steepShare(PlugFoot opening) {
        double steep = 0;
        double length = 0;
        for (int h : opening.edge(topology)) {
            if (topology.twin(h) >= 0) {
                Vector3d n = tool.areaNormal(topology.twin(h) / 3);
                length += lengthMm(h);
                steep += n.z < n.length() * Math.sin(Math.toRadians(STEEP_DEG)) ? lengthMm(h) : 0;
            }
        }
        return length > 0 ? steep / length : 0;
    }

    private double lengthMm(int halfEdge) {
        return tool.vertex(topology.from(halfEdge)).distance(tool.vertex(topology.to(halfEdge)));
    }
}
