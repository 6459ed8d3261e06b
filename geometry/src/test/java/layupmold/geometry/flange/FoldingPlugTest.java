package layupmold.geometry.flange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.OffsetStage;
import layupmold.geometry.offset.OffsetSurface;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.shapes.Shapes;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

/** A plug whose lobes are narrower than twice its offset: wall and border fold there. */
class FoldingPlugTest {

    private static final CoordinateLattice LATTICE = CoordinateLattice.within(500);
    private static final double OFFSET_MM = 2.5;

    /** Triangles that fold at a plain border's rim reach its outline, which was rebuilt in steps of half a millimetre. */
    @Test
    void foldsAtTheBordersRimLeaveItsOutlineAlone() {
        TriangleMesh tool = cloverleaf();
        FlangedSurface flanged = FlangeBuilder.build(tool, new byte[tool.triangleCount()], Shapes.outline(tool),
                Tool.MALE, FlangeSpec.defaults(), 4, -OFFSET_MM, 0, true, LATTICE);
        OffsetSurface plug = OffsetStage.offset(flanged, -OFFSET_MM, LATTICE);
        assertEquals(0, SelfIntersections.find(plug.mesh(), 10).length);
        assertTrue(plug.worst().mm() <= 0.02, plug.worst()::toString);
        assertEquals(flanged.outline().length, plug.outline().length);
        double[] before = heightsOf(flanged.mesh(), flanged.outline());
        double[] after = heightsOf(plug.mesh(), plug.outline());
        assertEquals(before[0], before[1], 0);
        assertEquals(OFFSET_MM, Math.abs(after[0] - before[0]), 1e-3);
        assertEquals(after[0], after[1], 1e-3);
    }

    /** At 4.9 mm a ridge of 0.3 mm is nearly 4 mm wide before it is offset, too wide between such lobes. */
    @Test
    void aMarkThatDoesNotFitIsNarrowedIfItMayBeAndLeftOutIfNot() {
        TriangleMesh cross = Shapes.bent(Shapes.bowl(1, 40, 4, 48), p -> {
            double share = Math.hypot(p.x, p.y) / Math.sin(Math.toRadians(40));
            double r = share * (60 + 40 * Math.cos(4 * Math.atan2(p.y, p.x)));
            double angle = Math.atan2(p.y, p.x);
            return new Vector3d(r * Math.cos(angle), r * Math.sin(angle), 0.004 * r * r);
        });
        assertEquals(List.of("trim-mark-faint"), findings(cross, -4.9, true));
        assertEquals(List.of("trim-mark-does-not-fit"), findings(cross, -4.9, false));
        assertEquals(List.of(), findings(cross, -0.5, true));
    }

    private static List<String> findings(TriangleMesh sheet, double offsetMm, boolean narrows) {
        TriangleMesh tool = new TriangleMesh(LATTICE.round(sheet.xyz().clone()), sheet.triangles());
        return FlangeBuilder.build(tool, new byte[tool.triangleCount()], Shapes.outline(tool), Tool.MALE,
                FlangeSpec.defaults(), 4, offsetMm, 0, narrows, LATTICE)
                .findings().stream().map(Finding::code).toList();
    }

    /** A bowl's cap, up to 9.5 mm from its axis at the tips of its four lobes in plan. */
    private static TriangleMesh cloverleaf() {
        TriangleMesh bowl = Shapes.bent(Shapes.bowl(12, 40, 4, 32), p -> {
            double stretch = 1 + 0.35 * Math.cos(4 * Math.atan2(p.y, p.x)) * Math.hypot(p.x, p.y) / 12;
            return new Vector3d(p.x * stretch, p.y * stretch, p.z);
        });
        return new TriangleMesh(LATTICE.round(bowl.xyz().clone()), bowl.triangles());
    }

    private static double[] heightsOf(TriangleMesh mesh, int[] vertices) {
        double[] heights = Arrays.stream(vertices).mapToDouble(v -> mesh.xyz()[3 * v + 2]).sorted().toArray();
        return new double[] {heights[0], heights[heights.length - 1]};
    }
}
