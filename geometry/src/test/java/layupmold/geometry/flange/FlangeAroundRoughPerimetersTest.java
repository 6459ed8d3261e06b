package layupmold.geometry.flange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.UnaryOperator;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.body.BodyBuilder;
import layupmold.geometry.body.MoldSolid;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.check.FlangeMeasurement;
import layupmold.geometry.check.MoldCheck;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.offset.OffsetStage;
import layupmold.geometry.recipe.BodySpec;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.shapes.Shapes;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What is promised of the finished solid is measured on it, for perimeters that are not simple loops in plan. */
class FlangeAroundRoughPerimetersTest {

    private static final CoordinateLattice LATTICE = CoordinateLattice.within(500);
    private static final BodySpec BLOCK = new BodySpec(BodySpec.Kind.BLOCK, 4);
    /** Sheet of 20 × 20 cells of 2 mm. */
    private static final int CELLS = 20;
    private static final double SIZE = 40;

    /** Triangle 1-2-3 folds back, facing down, into the notch that two of its edges make in the perimeter. */
    @Test
    void aToolTriangleThatFillsANotchOfThePerimeterIsNotBuiltTwice() {
        double[] xyz = {0, 0, 0, 19.85, 0, 0, 20, 0.15, 0.1, 20.15, 0, 0, 40, 0, 0, 40, 40, 0, 0, 40, 0, 20, 10, -1};
        int[] triangles = {1, 2, 3, 1, 3, 7, 0, 1, 7, 3, 4, 7, 4, 5, 7, 5, 6, 7, 6, 0, 7};
        assertSound(new TriangleMesh(xyz, triangles), Tool.FEMALE, FlangeSpec.defaults());
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.0007, 0.03})
    void aPerimeterThatRunsUpThePullForAStretch(double lean) {
        assertSound(bent(p -> {
            double step = Math.min(1, Math.max(0, (p.x - 18) / 4));
            // Between x = 18 and 22 the sheet turns upright, and leans back over itself by the lean.
            double x = p.x <= 18 ? p.x : p.x >= 22 ? p.x - 4 - lean : 18 - lean * step;
            return new Vector3d(x, p.y, 12 * step);
        }), Tool.FEMALE, FlangeSpec.defaults());
    }

    @Test
    void aPerimeterThatTrembles() {
        assertSound(bent(p -> {
            double shake = p.y == 0 ? 0.04 * Math.sin(7 * p.x) : 0;
            return new Vector3d(p.x + shake, p.y + 3 * shake, p.z + 20 * shake);
        }), Tool.FEMALE, FlangeSpec.defaults());
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 10, 35, 60})
    void tiltedAndWavy(double tiltDeg) {
        double slope = Math.tan(Math.toRadians(tiltDeg));
        for (Tool side : List.of(Tool.FEMALE, Tool.MALE)) {
            assertSound(bent(p -> new Vector3d(p.x, p.y, slope * p.x + 2 * Math.sin(p.y / 3))), side,
                    FlangeSpec.defaults());
        }
    }

    /** Straight in plan, curved seen from the side: rings need corners where only the height changes. */
    @ParameterizedTest
    @EnumSource(Tool.class)
    void theWallReleasesAlongSidesThatAreStraightInPlanOnly(Tool side) {
        FlangeSpec spec = new FlangeSpec(20, 5, 3, 2, 0);
        for (double curvature : new double[] {-0.02, -0.005, 0.005, 0.02}) {
            TriangleMesh tool = bent(p -> new Vector3d(p.x, p.y,
                    curvature * (Math.pow(p.x - SIZE / 2, 2) + Math.pow(p.y - SIZE / 2, 2))));
            FlangedSurface flanged = flanged(tool, side, spec);
            double area = 0;
            double tooSteep = 0;
            for (int t = 0; t < flanged.mesh().triangleCount(); t++) {
                Vector3d n = flanged.mesh().areaNormal(t);
                boolean isWall = MoldRegion.of(flanged.regions()[t]) == MoldRegion.WALL;
                area += isWall ? n.length() / 2 : 0;
                tooSteep += isWall && Math.asin(n.z / n.length()) < Math.toRadians(4.5) ? n.length() / 2 : 0;
            }
            assertTrue(tooSteep < 0.002 * area, curvature + ": " + tooSteep + " of " + area + " mm²");
        }
    }

    /** Where the perimeter is low and turns sharply the wall is wide, and its top's corners are near to each other. */
    @ParameterizedTest
    @EnumSource(Tool.class)
    void aWideWallHasNoShelfAtSharpCorners(Tool side) {
        FlangedSurface flanged = flanged(
                bent(p -> new Vector3d(p.x, p.y, 0.7 * p.x)), side, new FlangeSpec(20, 15, 3, 2, 0));
        for (int t = 0; t < flanged.mesh().triangleCount(); t++) {
            double z = flanged.mesh().corner(t, 0).z;
            boolean isLevel = flanged.mesh().corner(t, 1).z == z && flanged.mesh().corner(t, 2).z == z;
            // The skirt beside level sides of the perimeter may be level, at their height.
            boolean isBeyond = z > 0.7 * SIZE + 0.5 || z < -0.5;
            assertFalse(isLevel && isBeyond && MoldRegion.of(flanged.regions()[t]) == MoldRegion.WALL,
                    "shelf at " + flanged.mesh().centroid(t));
        }
    }

    /** A cup whose mouth is a U seen from the side: deep at the heel, open at the front. */
    @Test
    void heelCup() {
        TriangleMesh bowl = Shapes.bowl(40, 85, 24, 96);
        double[] xyz = bowl.xyz().clone();
        for (int i = 0; i < xyz.length; i += 3) {
            double share = Math.max(0, (xyz[i + 2] + 40) / 40);
            xyz[i + 2] += 25 * share * Math.max(0, -xyz[i] / 40);
        }
        assertSound(new TriangleMesh(xyz, bowl.triangles()), Tool.FEMALE, FlangeSpec.defaults());
    }

    /** A sheet bent to a U in plan, whose arms are nearer to each other than two flanges. */
    @ParameterizedTest
    @ValueSource(doubles = {0, 0.3})
    void horseshoe(double trimLineDepthMm) {
        assertSound(bent(p -> {
            double radius = 32 - p.y / 2;
            double angle = Math.PI * p.x / SIZE * 1.4;
            return new Vector3d(radius * Math.cos(angle), radius * Math.sin(angle), 4 * Math.sin(2 * angle));
        }), Tool.FEMALE, new FlangeSpec(30, 5, 3, 2, trimLineDepthMm));
    }

    @Test
    void aPerimeterThatCrossesItselfByMoreThanJitterIsRefusedWithThePlace() {
        Rejection rejection = assertThrows(Rejection.class, () -> solid(bent(p -> {
            double step = Math.min(1, Math.max(0, (p.x - 16) / 8));
            double x = p.x <= 16 ? p.x : p.x >= 24 ? p.x - 14 : 16 - 6 * step;
            return new Vector3d(x, p.y + (p.x > 20 && p.x < 30 ? 3 : 0), 12 * step);
        }), Tool.FEMALE, FlangeSpec.defaults()));
        assertEquals("perimeter-crosses-itself", rejection.finding().code());
        assertNotNull(rejection.finding().place());
    }

    private static TriangleMesh bent(UnaryOperator<Vector3d> bend) {
        return Shapes.bent(Shapes.sheet(SIZE, CELLS), bend);
    }

    private static void assertSound(TriangleMesh tool, Tool side, FlangeSpec spec) {
        MoldSolid solid = solid(tool, side, spec);
        EdgeTopology topology = EdgeTopology.of(solid.mesh());
        TriangleBvh bvh = TriangleBvh.of(solid.mesh());
        assertEquals(List.of(), MoldCheck.check(solid.mesh(), solid.regions(), topology, bvh).findings());
        FlangeMeasurement.Border border = FlangeMeasurement.narrowestBorder(solid.mesh(), solid.regions(), topology);
        assertTrue(border.widthMm() >= spec.widthMm(), border::toString);
    }

    private static MoldSolid solid(TriangleMesh given, Tool side, FlangeSpec spec) {
        TriangleMesh tool = new TriangleMesh(LATTICE.round(given.xyz().clone()), given.triangles());
        assertEquals(0, SelfIntersections.find(tool, TriangleBvh.of(tool), 10).length, "the test's own sheet is sound");
        return BodyBuilder.build(OffsetStage.offset(flanged(tool, side, spec), 0, LATTICE), BLOCK, LATTICE);
    }

    private static FlangedSurface flanged(TriangleMesh tool, Tool side, FlangeSpec spec) {
        return FlangeBuilder.build(tool, new byte[tool.triangleCount()], Shapes.outline(tool), side, spec, BLOCK.wallMm(),
                0, 0, true, LATTICE);
    }
}
