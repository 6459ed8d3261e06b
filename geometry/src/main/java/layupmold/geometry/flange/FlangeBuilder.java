package layupmold.geometry.flange;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.delaunay.ConstrainedDelaunay;
import layupmold.geometry.delaunay.PlanarGraphException;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.LabelledMeshBuilder;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Tool;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.Geometry;
import org.locationtech.jts.geom.MultiPoint;
import org.locationtech.jts.geom.Polygon;

/**
 * Stage "flange": grows drafted wall, rounded edge and level border around the perimeter.
 *
 * <p>Everything beyond the perimeter is a height over the plan: rings at growing distance from the perimeter's plan
 * (JTS buffers, so no ring crosses itself and flanges that would collide merge), joined by constrained Delaunay
 * triangulation. Such a surface cannot cross itself. The perimeter itself need not be simple in plan: a
 * {@link FirstRing} close to it is joined by a band in space. O(n log n) in the perimeter's vertices.
 */
public final class FlangeBuilder {

    private static final String STAGE = "flange";

    private final TriangleMesh tool;
    private final int[] perimeter;
    private final double up;
    private final CoordinateLattice lattice;
    private final LabelledMeshBuilder sheet;

    private FlangeBuilder(
            TriangleMesh tool, byte[] regions, int[] perimeter, Tool side, CoordinateLattice lattice) {
        this.lattice = lattice;
        this.tool = tool;
        this.perimeter = perimeter;
        this.up = side == Tool.FEMALE ? 1 : -1;
        this.sheet = new LabelledMeshBuilder(tool, regions);
    }

    /**
     * @param tool tool surface in the mold frame, facing out of the mold
     * @param regions region of each of its triangles
     * @param perimeter its perimeter's vertices with the surface on the left
     * @param side cavity or plug: the wall climbs with the pull or against it
     * @param wallMm least wall: the outline keeps this distance from the tool surface in plan
     * @param lattice the coordinates that the tool surface has
     * @throws Rejection if the perimeter crosses itself, seen along the pull, by more than jitter
     */
    public static FlangedSurface build(TriangleMesh tool, byte[] regions, int[] perimeter, Tool side, FlangeSpec spec,
            double wallMm, CoordinateLattice lattice) {
        return new FlangeBuilder(tool, regions, perimeter, side, lattice).build(spec, wallMm);
    }

    private FlangedSurface build(FlangeSpec spec, double wallMm) {
        Polygon plan = PerimeterPlan.of(tool.xyz(), perimeter);
        double lowest = Double.POSITIVE_INFINITY;
        double highest = Double.NEGATIVE_INFINITY;
        for (int v : perimeter) {
            double height = up * tool.xyz()[3 * v + 2];
            lowest = Math.min(lowest, height);
            highest = Math.max(highest, height);
        }
        MultiPoint bulge = verticesOutside(plan);
        double leastRise = bulge.isEmpty() ? 0 : wallMm;
        if (!bulge.isEmpty()) {
            highest = Math.max(highest, highestOf(bulge));
        }
        FlangeProfile profile = FlangeProfile.of(spec, lowest, highest, leastRise);
        List<int[]> inner = List.of(addBand(plan, profile, spec.draftDeg()));
        for (int i = 0; i < profile.levels().size(); i++) {
            FlangeProfile.Level level = profile.levels().get(i);
            boolean last = i == profile.levels().size() - 1;
            Geometry area = PlanRegion.grow(plan, level.distanceMm());
            if (last) {
                area = outline(area, bulge, wallMm);
            }
            List<int[]> outer = addRings(area, up * level.height());
            stitch(inner, outer, level.region());
            inner = outer;
        }
        if (inner.size() != 1) {
            throw new IllegalStateException("the outline must be one ring, not " + inner.size());
        }
        return new FlangedSurface(sheet.mesh(), sheet.labels(), inner.get(0), up * profile.planeHeight(), List.of());
    }

    /** The ring next to the perimeter, joined to it. */
    private int[] addBand(Polygon plan, FlangeProfile profile, double draftDeg) {
        FirstRing first = FirstRing.around(tool, perimeter, plan, profile.ledgeMm(), profile.ledgeRiseMm(),
                profile.levels().get(0).height(), draftDeg, up, lattice);
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

    /** Tool vertices that stick out under the flange: the part bulges past its perimeter. */
    private MultiPoint verticesOutside(Polygon plan) {
        PlanLocator locator = new PlanLocator(plan);
        double[] xyz = tool.xyz();
        List<Coordinate> outside = new ArrayList<>();
        boolean[] onPerimeter = new boolean[tool.vertexCount()];
        for (int v : perimeter) {
            onPerimeter[v] = true;
        }
        for (int v = 0; v < tool.vertexCount(); v++) {
            if (!onPerimeter[v] && locator.isOutside(xyz[3 * v], xyz[3 * v + 1])) {
                outside.add(new Coordinate(xyz[3 * v], xyz[3 * v + 1], xyz[3 * v + 2]));
            }
        }
        return PlanRegion.PLANE.createMultiPointFromCoords(outside.toArray(Coordinate[]::new));
    }

    private double highestOf(MultiPoint points) {
        double highest = Double.NEGATIVE_INFINITY;
        for (Coordinate c : points.getCoordinates()) {
            highest = Math.max(highest, up * c.z);
        }
        return highest;
    }

    /** Without holes, and wide enough for the least wall around everything. */
    private static Geometry outline(Geometry border, MultiPoint bulge, double wallMm) {
        Geometry area = border;
        if (!bulge.isEmpty()) {
            area = area.union(PlanRegion.grow(bulge.convexHull(), wallMm));
        }
        Polygon whole = (Polygon) area;
        return PlanRegion.PLANE.createPolygon(whole.getExteriorRing());
    }

    private List<int[]> addRings(Geometry area, double z) {
        List<int[]> rings = new ArrayList<>();
        for (double[] corners : PlanRegion.rings(area)) {
            int[] ring = new int[corners.length / 2];
            for (int i = 0; i < ring.length; i++) {
                ring[i] = sheet.addVertex(lattice.round(corners[2 * i]), lattice.round(corners[2 * i + 1]),
                        lattice.round(z));
            }
            rings.add(ring);
        }
        return rings;
    }

    /** Triangulates, in plan, what lies between two sets of rings. */
    private void stitch(List<int[]> inner, List<int[]> outer, MoldRegion region) {
        List<int[]> all = new ArrayList<>(inner);
        all.addAll(outer);
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
            int[] triangles = ConstrainedDelaunay.polygon(xy, rings);
            for (int i = 0; i < triangles.length; i += 3) {
                sheet.addTriangle(vertices[triangles[i]], vertices[triangles[i + 1]], vertices[triangles[i + 2]],
                        (byte) region.ordinal());
            }
        } catch (PlanarGraphException e) {
            throw new Rejection(Finding.error(STAGE, "flange-crosses-itself",
                    "The flange's rings touch each other: " + e.getMessage() + ".")
                    .at(PerimeterPlan.near(tool.xyz(), perimeter, xy[0], xy[1]))
                    .advising("Ask for a larger trim line depth, draft or rise, or smooth the part's edge."));
        }
    }
}
