package layupmold.geometry.flange;

import java.util.ArrayList;
import java.util.List;
import java.util.function.DoubleBinaryOperator;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.delaunay.PlanarGraphException;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.LabelledMeshBuilder;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Tool;
import org.joml.Vector2d;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.MultiPoint;
import org.locationtech.jts.geom.Polygon;

/**
 * Stage "flange": grows a skirt with the trim line's mark, drafted wall, rounded edge and level border around the
 * perimeter of the capped face. It comes before the offset, which then moves face and flange as one surface: the
 * perimeter lies inside it, and what ends is the level border.
 *
 * <p>Everything beyond the {@linkplain PerimeterSkirt skirt} is a height over the plan: rings at growing distance from
 * its plan (JTS buffers, so no ring crosses itself and flanges that would collide merge), joined by constrained
 * Delaunay triangulation. Such a surface cannot cross itself. The skirt's end itself need not be simple in plan: a
 * {@link FirstRing} close to it is joined by a band in space. O(n log n) in the perimeter's vertices.
 */
public final class FlangeBuilder {

    /** Borders are widened by this: where the offset has to rebuild their inner rim, it may lie as much farther out. */
    public static final double REBUILT_RIM_MM = 0.15;

    private static final String STAGE = "flange";

    /** Of the skirt beyond the trim line's mark: as wide as a corner at its end can reach once offset, and more. */
    private static final double LEAST_PLAIN_MM = 0.5;
    private static final double PLAIN_BY_OFFSET = 1.1;
    /** Of the skirt where the first ring cuts something; no more than a few corners can be helped so. */
    private static final int NARROWINGS = 8;
    private static final int MANY = 100;
    private static final int PAIR_LIMIT = 1000;

    private final TriangleMesh skirted;
    private final int[] perimeter;
    private final double up;
    private final CoordinateLattice lattice;
    private final LabelledMeshBuilder sheet;
    private final double[] unmarkedSkirt;

    private FlangeBuilder(PerimeterSkirt.Result skirt, double up, CoordinateLattice lattice) {
        this.lattice = lattice;
        this.skirted = skirt.mesh();
        this.perimeter = skirt.ring();
        this.unmarkedSkirt = skirt.unmarked();
        this.up = up;
        this.sheet = new LabelledMeshBuilder(skirted, skirt.regions());
    }

    /**
     * @param face capped face in the mold frame, facing out of the mold
     * @param regions region of each of its triangles
     * @param perimeter its perimeter's vertices with the surface on the left
     * @param side cavity or plug: the wall climbs with the pull or against it
     * @param spec what is asked of the flange once it is offset
     * @param roomMm that the outline and the border's plane leave around whatever of the offset surface bulges past the
     *     perimeter
     * @param offsetMm signed offset along the part's outward normal that will follow
     * @param ballMm radius of the ball that will roll over the surface to fill its corners, 0 for none: between the trim
     *     line's mark and the wall's foot there is as much room, and the foot of a plug's wall is as round
     * @param narrows may the skirt be narrowed where the wall would cut it?
     * @param lattice the coordinates that the flange may have
     * @throws Rejection if the perimeter crosses itself, seen along the pull, by more than jitter
     */
    public static FlangedSurface build(TriangleMesh face, byte[] regions, int[] perimeter, Tool side, FlangeSpec spec,
            double roomMm, double offsetMm, double ballMm, boolean narrows, CoordinateLattice lattice) {
        PerimeterPlan.of(face.xyz(), perimeter);
        try {
            return grown(face, regions, perimeter, side, spec, roomMm, offsetMm, ballMm, narrows, lattice);
        } catch (Rejection rejection) {
            if (spec.trimLineDepthMm() == 0) {
                throw rejection;
            }
            // What shows on the tool of a thick laminate is wide before it is offset.
            FlangeSpec unmarked =
                    new FlangeSpec(spec.widthMm(), spec.draftDeg(), spec.riseMm(), spec.edgeRadiusMm(), 0);
            return grown(face, regions, perimeter, side, unmarked, roomMm, offsetMm, ballMm, narrows, lattice)
                    .with(Finding.warning(STAGE, "trim-mark-does-not-fit",
                            "There is no room beside the perimeter for a trim mark that would show on the tool.")
                            .at(rejection.finding().place())
                            .advising("Mark this edge on the laminate by hand, or ask for a shallower mark."));
        }
    }

    private static FlangedSurface grown(TriangleMesh face, byte[] regions, int[] perimeter, Tool side, FlangeSpec spec,
            double roomMm, double offsetMm, double ballMm, boolean narrows, CoordinateLattice lattice) {
        double up = side == Tool.FEMALE ? 1 : -1;
        double plainMm = Math.max(Math.max(LEAST_PLAIN_MM, ballMm), PLAIN_BY_OFFSET * Math.abs(offsetMm));
        FlangeBuilder builder = null;
        int[] crossing = null;
        // A steep band lasts where the tool hangs over; where the skirt folds, a narrower one leaves no fin.
        for (boolean steep : narrows ? new boolean[] {false, true} : new boolean[] {true}) {
            PerimeterSkirt skirt = PerimeterSkirt.around(face, regions, perimeter, up, spec, offsetMm, plainMm);
            for (int round = 0; round <= NARROWINGS; round++) {
                builder = new FlangeBuilder(skirt.grow(), up, lattice);
                WallStart start = WallStart.of(builder.skirted, builder.perimeter, spec, roomMm, offsetMm, ballMm,
                        steep, up, lattice);
                crossing = start.first().crossing();
                if (crossing.length == 0) {
                    FlangedSurface flanged = builder.build(start);
                    crossing = builder.crossing(flanged.mesh());
                    if (crossing.length == 0) {
                        return skirt.faint().map(flanged::with).orElse(flanged);
                    }
                }
                if (!narrows || crossing.length > MANY || !skirt.narrow(crossing)) {
                    break;
                }
            }
        }
        throw builder.cutting(crossing);
    }

    /** Vertices of the skirted face in triangles that cross, one of them the flange's. */
    private int[] crossing(TriangleMesh flanged) {
        int[] pairs = SelfIntersections.findInvolving(flanged, skirted.triangleCount(), PAIR_LIMIT);
        return FirstRing.ofTool(flanged, pairs, skirted.vertexCount());
    }

    private Rejection cutting(int[] crossing) {
        double[] xyz = skirted.xyz();
        return new Rejection(Finding.error(STAGE, "flange-crosses-itself",
                "No flange can leave the part's perimeter here without cutting through the tool surface.")
                .at(PerimeterPlan.near(xyz, perimeter, xyz[3 * crossing[0]], xyz[3 * crossing[0] + 1]))
                .advising("Choose another pull direction, or smooth the part's edge."));
    }

    private FlangedSurface build(WallStart start) {
        PlanGrowth growth = start.growth();
        FlangeProfile profile = start.profile();
        FirstRing first = start.first();
        Rings inner = climbUnevenly(start, new Rings(List.of(addBand(first)), growth.tips(first.distanceMm())));
        // Long triangles between a foot that climbs and a level top would lean in; farther out they may grow.
        double cornersMm = start.stepMm();
        for (FlangeProfile.Level level : profile.climb()) {
            Rings outer = grown(growth, level.distanceMm(), cornersMm, (x, y) -> up * level.height());
            stitch(inner, outer, level.region());
            inner = outer;
            cornersMm *= 2;
        }
        Geometry area = growth.by(profile.edgeDistanceMm());
        double[] border = profile.borderMm();
        for (int i = 0; i < border.length; i++) {
            Geometry wider = PlanRegion.grow(area, border[i] - profile.edgeDistanceMm());
            wider = i == border.length - 1 ? outline(wider, start.bulge(), start.clearanceMm()) : wider;
            Rings outer = new Rings(addRings(wider, cornersMm, (x, y) -> up * profile.planeHeight()), List.of());
            stitch(inner, outer, MoldRegion.BORDER);
            inner = outer;
            cornersMm *= 2;
        }
        if (inner.vertices.size() != 1) {
            throw new IllegalStateException("the outline must be one ring, not " + inner.vertices.size());
        }
        return new FlangedSurface(sheet.mesh(), sheet.labels(), unmarkedSkirt, inner.vertices.get(0), List.of());
    }

    /** The wall's rings between the first and its top, none of them level; the outermost. */
    private Rings climbUnevenly(WallStart start, Rings foot) {
        FirstRing first = start.first();
        FlangeProfile.Level top = start.profile().climb().get(0);
        WallHeights heights = new WallHeights(first.xyz(), up, top.height());
        int steps = heights.steps();
        Rings inner = foot;
        for (int k = 1; k < steps; k++) {
            double share = k / (double) steps;
            double distanceMm = first.distanceMm() + share * (top.distanceMm() - first.distanceMm());
            Rings outer = grown(start.growth(), distanceMm, start.stepMm(), (x, y) -> heights.at(x, y, share));
            stitch(inner, outer, MoldRegion.WALL);
            inner = outer;
        }
        return inner;
    }

    /**
     * Rings of one level.
     *
     * @param vertices of each
     * @param tips where they may have sharp corners; none along the border, which follows them roundly
     */
    private record Rings(List<int[]> vertices, List<Vector2d> tips) {
    }

    /** The plan's growth by a distance, with the tips that its sharp corners keep. */
    private Rings grown(PlanGrowth growth, double distanceMm, double cornersMm, DoubleBinaryOperator z) {
        return new Rings(addRings(growth.by(distanceMm), cornersMm, z), growth.tips(distanceMm));
    }

    /** The ring next to the perimeter, joined to it. */
    private int[] addBand(FirstRing first) {
        int[] ring = new int[first.xyz().length / 3];
        for (int j = 0; j < ring.length; j++) {
            ring[j] = sheet.addVertex(first.xyz()[3 * j], first.xyz()[3 * j + 1], first.xyz()[3 * j + 2]);
        }
        int[] band = new int[first.band().length];
        for (int i = 0; i < band.length; i++) {
            int v = first.band()[i];
            band[i] = v < perimeter.length ? perimeter[v] : ring[v - perimeter.length];
        }
        for (int i = 0; i < band.length; i += 3) {
            sheet.addTriangle(band[i], band[i + 1], band[i + 2], (byte) MoldRegion.WALL.ordinal());
        }
        return ring;
    }

    /** Without holes, and wide enough around everything that bulges. */
    private static Geometry outline(Geometry border, MultiPoint bulge, double clearanceMm) {
        Geometry area = border;
        if (!bulge.isEmpty()) {
            area = area.union(PlanRegion.grow(bulge.convexHull(), clearanceMm));
        }
        Polygon whole = (Polygon) area;
        return PlanRegion.PLANE.createPolygon(whole.getExteriorRing());
    }

    /** Rings around the area, their corners at most {@code cornersMm} apart, at heights that places in plan have. */
    private List<int[]> addRings(Geometry area, double cornersMm, DoubleBinaryOperator z) {
        List<int[]> rings = new ArrayList<>();
        for (double[] corners : PlanRegion.rings(PlanRegion.stepped(area, cornersMm))) {
            int[] ring = new int[corners.length / 2];
            for (int i = 0; i < ring.length; i++) {
                double x = lattice.round(corners[2 * i]);
                double y = lattice.round(corners[2 * i + 1]);
                ring[i] = sheet.addVertex(x, y, lattice.round(z.applyAsDouble(x, y)));
            }
            rings.add(ring);
        }
        return rings;
    }

    /** Triangulates, in plan, what lies between two sets of rings. */
    private void stitch(Rings inner, Rings outer, MoldRegion region) {
        List<int[]> all = new ArrayList<>(inner.vertices);
        all.addAll(outer.vertices);
        int corners = all.stream().mapToInt(ring -> ring.length).sum();
        int[] vertices = new int[corners];
        double[] xy = new double[2 * corners];
        int[][] rings = new int[all.size()][];
        int n = 0;
        for (int r = 0; r < rings.length; r++) {
            rings[r] = new int[all.get(r).length];
            for (int i = 0; i < rings[r].length; i++, n++) {
                rings[r][i] = n;
                vertices[n] = all.get(r)[i];
                xy[2 * n] = sheet.x(vertices[n]);
                xy[2 * n + 1] = sheet.y(vertices[n]);
            }
        }
        try {
            int[] triangles = RingStrip.triangles(xy, rings, inner.vertices.size(), inner.tips, outer.tips);
            for (int i = 0; i < triangles.length; i += 3) {
                sheet.addTriangle(vertices[triangles[i]], vertices[triangles[i + 1]], vertices[triangles[i + 2]],
                        (byte) region.ordinal());
            }
        } catch (PlanarGraphException e) {
            throw new Rejection(Finding.error(STAGE, "flange-crosses-itself",
                    "The flange's rings touch each other: " + e.getMessage() + ".")
                    .at(PerimeterPlan.near(skirted.xyz(), perimeter, xy[0], xy[1]))
                    .advising("Ask for a larger draft or rise, or smooth the part's edge."));
        }
    }
}
