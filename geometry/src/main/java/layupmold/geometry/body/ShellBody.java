package layupmold.geometry.body;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.LabelledMeshBuilder;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.OffsetSurface;
import layupmold.geometry.recipe.BodySpec;
import org.joml.Vector3d;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.Polygon;
import org.locationtech.jts.operation.union.UnaryUnionOp;

/**
 * Closes the offset surface to a shell: an even wall, a rib along the outline that stiffens the border, and feet.
 *
 * <p>The underside of the border is level, so rib, feet and the bosses around holes are plan areas hung from it by
 * upright walls in two steps: what is thickened reaches down by the rib, and the feet, which lie within that, to the
 * bed. All of it keeps clear of the wall's underside in plan, so nothing can cross.
 */
final class ShellBody {

    /** Between the wall's underside and whatever hangs from the border. */
    private static final double GAP_MM = 1;
    /** What is thickened sticks out by this around a foot. */
    private static final double PAD_MM = 0.8;
    /** Necks narrower than twice this, between what hangs from the border, are filled. */
    private static final double LEAST_GAP_MM = 0.4;
    private static final double LEAST_RIB_WIDTH_MM = 2;
    /** For the chords of growth arcs. */
    private static final double CHORD_MM = 0.02;
    /** From the bed to the lowest place of wall or rib: room for supports. */
    private static final double STAND_MM = 3;
    /** Length of a screw's thread over its diameter: common practice, no source. */
    private static final double THREAD = 1.5;

    private final OffsetSurface surface;
    private final BodySpec spec;
    private final CoordinateLattice lattice;
    private final LevelBorder below;
    private final Polygon outline;
    /** What the wall's underside takes up in plan, and a gap around it. */
    private final Geometry keepOut;
    private final double rib;
    private final double bed;
    private final FootLayout layout;

    /**
     * A closed shell.
     *
     * @param solid before placement
     * @param feet their soles in plan
     * @param cuts notches and holes
     */
    record Result(LabelledMeshBuilder solid, List<Polygon> feet, BorderCuts cuts) {
    }

    private ShellBody(OffsetSurface surface, BodySpec spec, CoordinateLattice lattice) {
        this.surface = surface;
        this.spec = spec;
        this.lattice = lattice;
        this.below = ShellWall.under(surface, spec.wallMm(), lattice);
        this.outline = PlanArea.polygon(Deck.outline(surface));
        this.keepOut = below == null ? null : PlanArea.grow(below.shadow(), GAP_MM);
        if (below == null || !PlanArea.grow(outline, -PAD_MM).covers(keepOut)) {
            throw new Rejection(Finding.error("body", "border-too-narrow",
                    "Below the border the shell's wall leaves no room for a rib and feet.")
                    .at(Place.at(surface.mesh().vertex(surface.outline()[0])))
                    .advising("Ask for a wider flange, a thinner wall, or body.kind = block."));
        }
        double deep = spec.ribMm();
        if (spec.notches().count() > 0) {
            deep = Math.max(deep, spec.notches().heightMm());
        }
        if (spec.screws().count() > 0) {
            deep = Math.max(deep, THREAD * spec.screws().diameterMm() - spec.wallMm());
        }
        this.rib = lattice.below(below.z() - deep);
        this.bed = lattice.below(Math.min(below.rest().bounds()[2], rib) - STAND_MM);
        Vector3d centre = centre(surface.mesh());
        Geometry free = PlanArea.grow(outline, -GAP_MM).difference(PlanArea.grow(keepOut, PAD_MM));
        this.layout = FootLayout.of(free, spec.feet(), below.z() - bed, new Coordinate(centre.x, centre.y));
    }

    /** For the wall, a gap and the rib, mm. */
    static double roomMm(BodySpec spec) {
        return ShellWall.mostMm(spec.wallMm()) + GAP_MM + ribWidthMm(spec) + 2 * CHORD_MM;
    }

    /**
     * Costs what its wall costs.
     *
     * @param above the surface without its border, or null to cut nothing into it
     * @throws Rejection if there is no room, or no even wall
     */
    static Result close(OffsetSurface surface, LevelBorder above, BodySpec spec, CoordinateLattice lattice) {
        return new ShellBody(surface, spec, lattice).close(above);
    }

    private Result close(LevelBorder above) {
        double[] ring = Deck.outline(surface);
        BorderCuts cuts = above == null ? BorderCuts.none(ring)
                : BorderCuts.of(ring, spec, keepOut.union(above.shadow()), layout.feet(), lattice);
        Deck deck = above == null ? Deck.uncut(surface)
                : Deck.cut(above, cuts.outline(), cuts.holes(), spec.notches().heightMm(), lattice);
        LabelledMeshBuilder solid = deck.solid;
        Deck.Closing closing = deck.hang(rib);

        List<int[]> soles = new ArrayList<>(closing.holes());
        soles.add(closing.outline());
        List<int[]> plate = new ArrayList<>(addUnderside(solid));
        for (double[] xy : PlanArea.rings(recess(cuts), lattice)) {
            int[] lower = PlanFill.ring(solid, xy, rib);
            int[] upper = PlanFill.ring(solid, xy, below.z());
            PlanFill.wall(solid, PlanFill.reversed(upper), PlanFill.reversed(lower), MoldRegion.SIDE);
            soles.add(lower);
            plate.add(upper);
        }
        for (Polygon foot : layout.feet()) {
            soles.addAll(addFoot(solid, foot));
        }
        PlanFill.fill(solid, soles, false, MoldRegion.SIDE);
        PlanFill.fill(solid, plate, false, MoldRegion.SIDE);
        return new Result(solid, layout.feet(), cuts);
    }

    private static double ribWidthMm(BodySpec spec) {
        return Math.max(LEAST_RIB_WIDTH_MM, spec.wallMm());
    }

    /** Where the border stays as thin as the wall. */
    private Geometry recess(BorderCuts cuts) {
        List<Geometry> thick = new ArrayList<>();
        layout.feet().forEach(foot -> thick.add(PlanArea.grow(foot, PAD_MM)));
        cuts.outline().notches().forEach(notch -> thick.add(PlanArea.grow(notch.plan(), spec.wallMm() + CHORD_MM)));
        cuts.holes().forEach(hole -> thick.add(PlanArea.grow(PlanArea.polygon(hole), spec.wallMm() + CHORD_MM)));
        return PlanArea.opened(PlanArea.grow(outline, -ribWidthMm(spec) - CHORD_MM).difference(UnaryUnionOp.union(thick))
                .union(keepOut), LEAST_GAP_MM);
    }

    /** @return its rims */
    private List<int[]> addUnderside(LabelledMeshBuilder solid) {
        TriangleMesh rest = below.rest();
        int[] vertex = new int[rest.vertexCount()];
        for (int v = 0; v < vertex.length; v++) {
            vertex[v] = solid.addVertex(rest.xyz()[3 * v], rest.xyz()[3 * v + 1], rest.xyz()[3 * v + 2]);
        }
        int[] corners = rest.triangles();
        for (int t = 0; t < corners.length; t += 3) {
            solid.addTriangle(vertex[corners[t]], vertex[corners[t + 2]], vertex[corners[t + 1]],
                    (byte) MoldRegion.SIDE.ordinal());
        }
        List<int[]> rims = new ArrayList<>();
        for (int[] loop : below.loops()) {
            int[] rim = new int[loop.length];
            for (int i = 0; i < rim.length; i++) {
                rim[i] = vertex[loop[i]];
            }
            rims.add(rim);
        }
        return rims;
    }

    /** @return where it meets the rib's lower side */
    private List<int[]> addFoot(LabelledMeshBuilder solid, Polygon foot) {
        List<int[]> upper = new ArrayList<>();
        List<int[]> sole = new ArrayList<>();
        for (double[] xy : PlanArea.rings(foot, lattice)) {
            upper.add(PlanFill.ring(solid, xy, rib));
            sole.add(PlanFill.ring(solid, xy, bed));
            PlanFill.wall(solid, upper.get(upper.size() - 1), sole.get(sole.size() - 1), MoldRegion.SIDE);
        }
        PlanFill.fill(solid, sole, false, MoldRegion.BASE);
        return upper;
    }

    /** Of the area: an even wall's centre of gravity. */
    private static Vector3d centre(TriangleMesh sheet) {
        Vector3d sum = new Vector3d();
        double area = 0;
        for (int t = 0; t < sheet.triangleCount(); t++) {
            double own = sheet.areaNormal(t).length();
            sum.fma(own, sheet.centroid(t));
            area += own;
        }
        return sum.div(area);
    }
}
