package layupmold.geometry;

import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.inspect.Inspection;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.report.MoldReport;

/** What came of a part and a recipe. */
public sealed interface MoldOutcome {

    /**
     * A mold that passed all its checks.
     *
     * @param solid closed, oriented, two-manifold, one component, standing on z = 0, centred in plan; coordinates are
     *     exactly representable as 32-bit floats, so that writing STL loses nothing
     * @param regions {@link MoldRegion} ordinal of each triangle
     * @param partToMold from the posted mesh's frame (in mm) to the mold's
     * @param report figures and findings
     * @param inspection what was measured on the solid, in its own frame
     * @param workpiece part and kept face, for pictures
     */
    record Mold(TriangleMesh solid, byte[] regions, RigidTransform partToMold, MoldReport report,
            Inspection inspection, Workpiece workpiece) implements MoldOutcome {
    }

    /**
     * No mold.
     *
     * @param reason why, where and what to do
     * @param findings everything found until then, the reason included
     */
    record Rejected(Finding reason, List<Finding> findings) implements MoldOutcome {
        public Rejected {
            findings = List.copyOf(findings);
        }
    }
}
