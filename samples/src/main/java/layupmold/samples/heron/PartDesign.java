package layupmold.samples.heron;

import java.util.SplittableRandom;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shape.FlatMesh;
import layupmold.geometry.shape.PlanarDomain;
import layupmold.geometry.shape.PointSampler;
import layupmold.geometry.shape.Rim;
import layupmold.geometry.shape.ScalarField;
import layupmold.geometry.shape.Surface;
import layupmold.geometry.shape.ThinShell;

/**
 * One costume part before it is meshed.
 *
 * @param surface outer wall without detail, its normal outward
 * @param domain perimeter and openings
 * @param lines grooves and ridges
 * @param thicknessMm wall
 * @param sizeMm greatest edge length wanted at a place
 * @param rimSegments edges of the half circle that rounds the rims
 */
record PartDesign(
        Surface surface, PlanarDomain domain, DetailLines lines, ScalarField thicknessMm, ScalarField sizeMm,
        int rimSegments) {

    private static final double FINEST_MM = 1.2;
    private static final double COARSEST_MM = 6;
    private static final int RIM_SEGMENTS = 6;

    PartDesign(Surface surface, PlanarDomain domain, DetailLines lines, ScalarField thicknessMm, ScalarField sizeMm) {
        this(surface, domain, lines, thicknessMm, sizeMm, RIM_SEGMENTS);
    }

    /** Spacing of points along loops. */
    static final double LOOP_SPACING_MM = 2.3;

    /** Meshes the part: the outer wall follows the lines, the inner wall is plain. */
    ThinShell build(long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        PointSampler outerPoints = new PointSampler(domain, FINEST_MM);
        lines.sample(outerPoints);
        ScalarField outerSize = (u, v) -> {
            double beside = lines.sizeBeside(u, v);
            return beside == Double.MAX_VALUE ? beside : Math.min(plainSize(u, v), beside);
        };
        outerPoints.fill(outerSize, FINEST_MM, COARSEST_MM, 0.25, random.split());
        PointSampler innerPoints = new PointSampler(domain, FINEST_MM);
        innerPoints.fill(this::plainSize, LOOP_SPACING_MM, COARSEST_MM, 0.25, random.split());
        return ThinShell.of(new ThinShell.Plan(surface, lines.relief(domain), thicknessMm, Rim.fullRound(rimSegments),
                FlatMesh.of(domain, outerPoints.points()), FlatMesh.of(domain, innerPoints.points())));
    }

    private double plainSize(double u, double v) {
        return Math.min(sizeMm.at(u, v), LOOP_SPACING_MM + 0.6 * domain.distanceToLoops(u, v));
    }

    /** The part seen in a mirror at x = 0. */
    static TriangleMesh mirrored(TriangleMesh mesh) {
        double[] xyz = mesh.xyz().clone();
        for (int i = 0; i < xyz.length; i += 3) {
            xyz[i] = -xyz[i];
        }
        return new TriangleMesh(xyz, mesh.triangles()).flipped();
    }
}
