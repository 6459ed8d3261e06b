package layupmold.geometry.body;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.recipe.BodySpec;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.union.UnaryUnionOp;

/**
 * Notches and holes laid out on a border.
 *
 * @param outline with the notches
 * @param holes x-y corners of each, counter-clockwise
 */
record BorderCuts(NotchedOutline outline, List<double[]> holes) {

    private static final String STAGE = "body";

    /** No cuts at all. */
    static BorderCuts none(double[] outline) {
        return new BorderCuts(NotchedOutline.plain(outline), List.of());
    }

    static boolean areAsked(BodySpec spec) {
        return spec.notches().count() > 0 || spec.screws().count() > 0;
    }

    /**
     * Notches first, holes where they leave room.
     *
     * @param inner what both must be clear of by the wall
     * @param feet what holes must be clear of besides
     */
    static BorderCuts of(
            double[] outline, BodySpec spec, Geometry inner, List<Polygon> feet, CoordinateLattice lattice) {
        NotchedOutline notched = NotchedOutline.of(outline, spec.notches(), inner, spec.wallMm(), lattice);
        List<Geometry> taken = new ArrayList<>(feet);
        notched.notches().forEach(notch -> taken.add(notch.plan()));
        Geometry all = taken.isEmpty() ? PlanArea.PLANE.createPolygon() : UnaryUnionOp.union(taken);
        return new BorderCuts(notched, HoleLayout.of(
                PlanArea.polygon(outline), inner, all, spec.screws(), spec.wallMm(), lattice));
    }

    /** Says what found no room. */
    List<Finding> findings(BodySpec spec) {
        List<Finding> findings = new ArrayList<>();
        int notches = outline.notches().size();
        if (notches < spec.notches().count()) {
            findings.add(Finding.info(STAGE, "notches-left-out", "The border has no room for all pry notches.")
                    .measured(notches, (double) spec.notches().count(), "1")
                    .advising("Ask for a wider flange or smaller notches; else start to lever with a thin blade."));
        }
        if (holes.size() < spec.screws().count()) {
            findings.add(Finding.warning(STAGE, "screw-holes-left-out", "The border has no room for all screw holes.")
                    .measured(holes.size(), (double) spec.screws().count(), "1")
                    .advising("Ask for a wider flange, a smaller diameter or fewer holes."));
        }
        return findings;
    }
}
