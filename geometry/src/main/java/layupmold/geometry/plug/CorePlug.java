package layupmold.geometry.plug;

import layupmold.geometry.delaunay.PlanarGraphException;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * One island: a drafted wall from its foot, which lies in space as the opening's edge does, to a level top, whose ring
 * runs at one distance inside the foot, seen along the pull. Where the foot climbs, the draft is more than asked.
 *
 * <p>All of it is a height over the plan within the foot, so it cannot cross itself. Facets do not run exactly square
 * to the edge, so the draft is measured and the distance widened until it is met. Where the opening's edge is ragged
 * (the offset was rebuilt there), a strip of the cap is left standing as a narrow ledge, and the foot lies inside it.
 *
 * @param foot what it takes the place of
 * @param xyz x, y, z of its own vertices
 * @param triangles corners: the foot's vertices by their place in it, its own after those; facing up
 * @param ledge how many of the triangles, the first ones, are ledge
 * @param ledgePlanMm2 area of the ledge in plan
 * @param leastDraftDeg measured on the wall, without slivers
 */
record CorePlug(PlugFoot foot, double[] xyz, int[] triangles, int ledge, double ledgePlanMm2,
        double leastDraftDeg) {

    private static final double[] WIDENED = {1, 1.02, 1.05, 1.1, 1.2};
    private static final double[] SET_BACKS_MM = {0, 0.1, 0.2, 0.4};
    /** Rounding to 32-bit coordinates. */
    private static final double DRAFT_SLACK_DEG = 0.01;

    /**
     * A few times O(n log n).
     *
     * @param tool the surface
     * @param opening the whole patch across the opening
     * @param riseMm of the top over the foot's highest vertex
     * @param draftDeg least draft of the wall
     * @throws Unfit if no plug fits
     */
    static CorePlug raise(TriangleMesh tool, EdgeTopology topology, PlugFoot opening, double riseMm, double draftDeg,
            CoordinateLattice lattice) throws Unfit {
        CorePlug best = null;
        Unfit unfit = null;
        for (double setBack : SET_BACKS_MM) {
            try {
                CorePlug plug = setBack(tool, topology, opening, setBack, riseMm, draftDeg, lattice);
                best = best == null || plug.leastDraftDeg > best.leastDraftDeg ? plug : best;
                if (best.leastDraftDeg >= draftDeg - DRAFT_SLACK_DEG) {
                    return best;
                }
            } catch (Unfit e) {
                unfit = unfit == null ? e : unfit;
            }
        }
        if (best == null) {
            throw unfit;
        }
        return best;
    }

    private static CorePlug setBack(TriangleMesh tool, EdgeTopology topology, PlugFoot opening, double setBackMm,
            double riseMm, double draftDeg, CoordinateLattice lattice) throws Unfit {
        PlugFoot foot = setBackMm == 0 ? opening : opening.inside(tool, topology, setBackMm);
        if (foot == null || foot.loop().length == 0) {
            throw new Unfit("plug-foot-not-simple", "its edge is not one simple loop");
        }
        PlugSite site = PlugSite.of(tool, foot, riseMm, lattice);
        PlanInset plan = PlanInset.of(tool.xyz(), foot.loop());
        try {
            CorePlug best = null;
            for (double widened : WIDENED) {
                CorePlug plug = site.join(plan, setBackMm > 0, widened, draftDeg);
                if ((best == null || plug.leastDraftDeg > best.leastDraftDeg) && site.isFree(plug)) {
                    best = plug;
                }
                if (best != null && best.leastDraftDeg >= draftDeg - DRAFT_SLACK_DEG) {
                    break;
                }
            }
            if (best == null) {
                throw new Unfit("plug-crosses-tool", "a plug would cut through the tool surface beside it");
            }
            return best;
        } catch (PlanarGraphException e) {
            throw new Unfit("plug-foot-not-simple", "seen along the pull, its edge touches itself");
        }
    }
}
