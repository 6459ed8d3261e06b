package layupmold.geometry.body;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import layupmold.geometry.check.FlangeMeasurement;
import layupmold.geometry.check.MoldCheck;
import layupmold.geometry.check.WallCheck;
import layupmold.geometry.flange.FlangeBuilder;
import layupmold.geometry.flange.FlangedSurface;
import layupmold.geometry.inspect.MeasuredSolid;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.OffsetStage;
import layupmold.geometry.offset.OffsetSurface;
import layupmold.geometry.recipe.BodySpec;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.shapes.Shapes;

/** Molds of sheets that are their own tool surface, and what every mold must pass. */
final class Molds {

    static final CoordinateLattice LATTICE = CoordinateLattice.within(500);

    private Molds() {
    }

    static MoldSolid make(TriangleMesh given, Tool side, FlangeSpec flange, BodySpec body) {
        return BodyBuilder.build(surface(given, side, flange, body), body, LATTICE);
    }

    static OffsetSurface surface(TriangleMesh given, Tool side, FlangeSpec flange, BodySpec body) {
        TriangleMesh tool = new TriangleMesh(LATTICE.round(given.xyz().clone()), given.triangles());
        int[] perimeter = Shapes.outline(tool);
        FlangedSurface flanged = FlangeBuilder.build(
                tool, new byte[tool.triangleCount()], perimeter, side, flange, BodyBuilder.roomMm(body), 0, 0, true,
                LATTICE);
        return OffsetStage.offset(flanged, 0, LATTICE);
    }

    /** The mold, having passed all checks. */
    static MeasuredSolid sound(MoldSolid mold, FlangeSpec flange, BodySpec body) {
        MeasuredSolid solid = MeasuredSolid.of(mold.mesh(), mold.regions());
        MoldCheck.Result checks = MoldCheck.check(solid.mesh(), solid.regions(), solid.topology(), solid.bvh());
        assertEquals(List.of(), checks.findings());
        assertEquals(List.of(), WallCheck.check(
                solid.mesh(), solid.regions(), solid.bvh(), body.wallMm()).findings());
        FlangeMeasurement.Border border =
                FlangeMeasurement.narrowestBorder(solid.mesh(), solid.regions(), solid.topology());
        assertTrue(border.widthMm() >= flange.widthMm(), border::toString);
        return solid;
    }
}
