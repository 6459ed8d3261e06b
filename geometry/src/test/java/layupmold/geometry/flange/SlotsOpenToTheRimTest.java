package layupmold.geometry.flange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import layupmold.geometry.body.BodyBuilder;
import layupmold.geometry.body.MoldSolid;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.check.FlangeMeasurement;
import layupmold.geometry.check.MoldCheck;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.OffsetStage;
import layupmold.geometry.recipe.BodySpec;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.testparts.IsoSurface;
import layupmold.geometry.testparts.PlaneCuts;
import org.joml.Vector3d;
import org.joml.Vector4d;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/**
 * A slot with square corners sawn into the steep side of a helmet, up from its rim: part of the perimeter, whose sides
 * run up the pull and whose end lies hardly farther in than the rim, so that skirt and wall have little room there.
 */
class SlotsOpenToTheRimTest {

    private static final CoordinateLattice LATTICE = CoordinateLattice.within(500);
    private static final BodySpec BLOCK = new BodySpec(BodySpec.Kind.BLOCK, 4);
    private static final double RADIUS_MM = 80;
    private static final double RIM_MM = 12;
    private static final double SLOT_END_MM = -56;

    @ParameterizedTest
    @CsvSource({"2.1, 24, 1", "2.5, 24, 0", "2.7, 24, 1", "3, 10, 0", "3, 24, 1", "3, 40, 0"})
    void wallAndMarkFollowTheSlot(double step, double widthMm, double offsetMm) {
        TriangleMesh bowl = slottedBowl(step, widthMm / 2);
        FlangeSpec spec = FlangeSpec.defaults();
        FlangedSurface flanged = FlangeBuilder.build(bowl, new byte[bowl.triangleCount()], Shapes.outline(bowl),
                Tool.FEMALE, spec, BLOCK.wallMm(), offsetMm, 0, true, LATTICE);
        for (Finding said : flanged.findings()) {
            assertEquals("trim-mark-faint", said.code(), "and only around the slot's corners");
            assertTrue(said.figure() < 10, said::toString);
        }
        MoldSolid solid = BodyBuilder.build(OffsetStage.offset(flanged, offsetMm, LATTICE), BLOCK, LATTICE);
        EdgeTopology topology = EdgeTopology.of(solid.mesh());
        TriangleBvh bvh = TriangleBvh.of(solid.mesh());
        assertEquals(List.of(), MoldCheck.check(solid.mesh(), solid.regions(), topology, bvh).findings());
        FlangeMeasurement.Border border = FlangeMeasurement.narrowestBorder(solid.mesh(), solid.regions(), topology);
        assertTrue(border.widthMm() >= spec.widthMm(), border::toString);
    }

    /** An ellipsoid's upper part, sawn off at the rim and sawn in from there, turned to lie rim up. */
    private static TriangleMesh slottedBowl(double step, double halfWidthMm) {
        Vector3d room = new Vector3d(RADIUS_MM + 5, RADIUS_MM + 5, RADIUS_MM + 5);
        TriangleMesh whole = IsoSurface.of(
                p -> new Vector3d(p).div(0.85, 1, 0.9).length() - RADIUS_MM, new Vector3d(room).negate(), room, step);
        List<Vector4d> cuts = List.of(new Vector4d(0, 0, 1, RIM_MM), new Vector4d(1, 0, 0, halfWidthMm),
                new Vector4d(1, 0, 0, -halfWidthMm), new Vector4d(0, 1, 0, SLOT_END_MM));
        TriangleMesh helmet = PlaneCuts.cut(whole, cuts,
                p -> p.z > RIM_MM && !(Math.abs(p.x) < halfWidthMm && p.y < SLOT_END_MM));
        TriangleMesh bowl = Shapes.bent(helmet, p -> new Vector3d(-p.x, p.y, -p.z)).flipped();
        return new TriangleMesh(LATTICE.round(bowl.xyz()), bowl.triangles());
    }
}
