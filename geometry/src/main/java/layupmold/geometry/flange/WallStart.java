package layupmold.geometry.flange;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.FlangeSpec;
import org.locationtech.jts.geom.Coordinate;
import org.locationtech.jts.geom.MultiPoint;
import org.locationtech.jts.geom.Polygon;

/**
 * What the flange's wall grows from, and to what profile.
 *
 * @param growth of what the skirt encloses in plan
 * @param bulge what sticks out under the flange
 * @param clearanceMm that the outline keeps from it
 * @param stepMm most between corners of the wall's foot and top
 * @param first ring, clear or not
 */
record WallStart(PlanGrowth growth, MultiPoint bulge, double clearanceMm, FlangeProfile profile, double stepMm,
        FirstRing first) {

    /** Where the perimeter is not level, corners of the wall's foot and top are no farther apart. */
    private static final double STEP_MM = 1;
    private static final double LEVEL_MM = 0.01;

    /**
     * O(n log n), and what {@link FirstRing} takes.
     *
     * @param skirted the face and its skirt, whose end is the perimeter
     * @param steep may the first ring be raised as far as fits?
     * @see FlangeBuilder#build
     */
    static WallStart of(TriangleMesh skirted, int[] perimeter, FlangeSpec spec, double roomMm, double offsetMm,
            double ballMm, boolean steep, double up, CoordinateLattice lattice) {
        Polygon plan = PerimeterPlan.of(skirted.xyz(), perimeter);
        // The offset widens what bulges past the perimeter and takes as much off the edge's radius.
        double clearanceMm = roomMm + 2 * Math.abs(offsetMm);
        double askedRadiusMm = spec.edgeRadiusMm() > 0 ? Math.max(0, spec.edgeRadiusMm() + offsetMm) : 0;
        // A tighter foot would be filled, which would take from the border.
        double radiusMm = up > 0 ? askedRadiusMm : Math.max(askedRadiusMm, FlangeProfile.radiusForBall(ballMm));
        double lowest = Double.POSITIVE_INFINITY;
        double highest = Double.NEGATIVE_INFINITY;
        for (int v : perimeter) {
            double height = up * skirted.xyz()[3 * v + 2];
            lowest = Math.min(lowest, height);
            highest = Math.max(highest, height);
        }
        MultiPoint bulge = verticesOutside(skirted, perimeter, plan);
        for (Coordinate c : bulge.getCoordinates()) {
            highest = Math.max(highest, up * c.z);
        }
        double stepMm = highest - lowest > LEVEL_MM ? STEP_MM : PerimeterSides.LONGEST_MM;
        PlanGrowth growth = new PlanGrowth(plan);
        FlangeProfile profile = FlangeProfile.of(spec, radiusMm, Math.abs(offsetMm) * growth.mostMitre(), lowest,
                highest, bulge.isEmpty() ? 0 : clearanceMm);
        FirstRing first = FirstRing.around(skirted, perimeter, growth, profile.stripMm(), stepMm, profile.stripRiseMm(),
                profile.climb().get(0).height(), spec.draftDeg(), steep, up, lattice);
        return new WallStart(growth, bulge, clearanceMm, profile, stepMm, first);
    }

    /** Vertices that stick out under the flange: the part bulges past its perimeter. */
    private static MultiPoint verticesOutside(TriangleMesh skirted, int[] perimeter, Polygon plan) {
        PlanLocator locator = new PlanLocator(plan);
        double[] xyz = skirted.xyz();
        List<Coordinate> outside = new ArrayList<>();
        boolean[] onPerimeter = new boolean[skirted.vertexCount()];
        for (int v : perimeter) {
            onPerimeter[v] = true;
        }
        for (int v = 0; v < skirted.vertexCount(); v++) {
            if (!onPerimeter[v] && locator.isOutside(xyz[3 * v], xyz[3 * v + 1])) {
                outside.add(new Coordinate(xyz[3 * v], xyz[3 * v + 1], xyz[3 * v + 2]));
            }
        }
        return PlanRegion.PLANE.createMultiPointFromCoords(outside.toArray(Coordinate[]::new));
    }
}
