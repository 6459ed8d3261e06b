package layupmold.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import layupmold.geometry.delaunay.ConstrainedDelaunay;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.Hold;
import layupmold.geometry.recipe.Layup;
import layupmold.geometry.recipe.Ply;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.shapes.Shapes;
import org.joml.Vector3d;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What is left of trim marks on the finished tool of a flat plate, whose ground is one plane. */
class TrimMarksOnToolsTest {

    private static final double SIDE_MM = 60;
    private static final double WINDOW_MM = 24;
    private static final double DEPTH_MM = 0.3;
    private static final double HOLLOW_MM = 1.5;

    @ParameterizedTest
    @CsvSource({"FEMALE, INNER, 250", "FEMALE, INNER, 1000", "MALE, OUTER, 250", "MALE, OUTER, 1000",
        "FEMALE, OUTER, 250"})
    void areAsDeepAsAskedHoweverThickTheLaminate(Tool tool, Hold hold, double arealWeightGsm) {
        MoldOutcome.Mold mold = mold(windowed(), tool, hold, arealWeightGsm);
        TriangleMesh solid = mold.partToMold().inverse().apply(mold.solid());
        double ground = ground(solid, mold.regions());
        assertEquals(mold.report().offset().signedMm(), ground, 1e-3);
        // Grooves go into the tool's body, and the ridge around a plug stands out of it.
        assertEquals(DEPTH_MM, highest(solid, mold.regions(), MoldRegion.WALL, ground, 1), 0.01);
        int intoBody = tool == Tool.FEMALE ? 1 : -1;
        assertEquals(DEPTH_MM, highest(solid, mold.regions(), MoldRegion.CAP, ground, intoBody), 0.02);
        double copied = IntStream.range(0, mold.regions().length)
                .filter(t -> mold.regions()[t] == MoldRegion.TOOL.ordinal())
                .mapToDouble(t -> solid.areaNormal(t).length() / 2).sum();
        double face = SIDE_MM * SIDE_MM - WINDOW_MM * WINDOW_MM;
        // A mark of the same slope right at the line would take 0.45 mm off along it at the greatest offset.
        assertTrue(copied > face - 0.15 * 4 * (SIDE_MM + WINDOW_MM), "copied " + copied + " of " + face + " mm²");
    }

    /** A hollow that is tight for the mark narrows it before it is offset: a cavity's loses less depth than a plug's. */
    @ParameterizedTest
    @CsvSource({"FEMALE, INNER, 0.7, 0.95", "MALE, OUTER, 0.3, 0.6"})
    void areShallowerInTightHollows(Tool tool, Hold hold, double leastShare, double mostShare) {
        MoldOutcome.Mold mold = mold(notched(), tool, hold, 250);
        TriangleMesh solid = mold.partToMold().inverse().apply(mold.solid());
        double ground = ground(solid, mold.regions());
        // Without the notch's mouth, where the narrowed mark meets the whole one at a corner.
        double share = IntStream.range(0, mold.regions().length)
                .filter(t -> mold.regions()[t] == MoldRegion.WALL.ordinal())
                .flatMap(t -> Arrays.stream(solid.triangles(), 3 * t, 3 * t + 3)).mapToObj(solid::vertex)
                .filter(p -> p.y + SIDE_MM / 2 > Math.abs(p.x) && p.y + SIDE_MM / 2 < HOLLOW_MM)
                .mapToDouble(p -> (p.z - ground) / DEPTH_MM).max().orElseThrow();
        assertTrue(share > leastShare && share < mostShare, share + " of the depth");
    }

    private static MoldOutcome.Mold mold(TriangleMesh part, Tool tool, Hold hold, double arealWeightGsm) {
        Layup layup = Recipe.defaults().layup();
        Ply ply = layup.plies().get(0);
        List<Ply> plies = List.of(new Ply(ply.weave(), arealWeightGsm, ply.fibreDensity(), ply.angleDeg()));
        Recipe recipe = Recipe.defaults().withTool(tool, hold)
                .withPull(new Vector3d(0, 0, tool == Tool.FEMALE ? -1 : 1))
                .withLayup(new Layup(plies, layup.fibreWeightFraction(), layup.matrixDensity(), 0),
                        Recipe.defaults().releaseMm());
        return (MoldOutcome.Mold) MoldPipeline.make(new PartFile(part, "stl", null, List.of()), recipe, Progress.SILENT);
    }

    /** In the plane z = 0, front up, around the origin, with a half round notch in the middle of its side at least y. */
    private static TriangleMesh notched() {
        double half = SIDE_MM / 2;
        int arc = 20;
        double[] corners = new double[2 * (arc + 5)];
        for (int i = 0; i <= arc; i++) {
            double angle = Math.PI * (arc - i) / arc;
            corners[2 * i] = HOLLOW_MM * Math.cos(angle);
            corners[2 * i + 1] = HOLLOW_MM * Math.sin(angle) - half;
        }
        double[] square = {half, -half, half, half, -half, half, -half, -half};
        System.arraycopy(square, 0, corners, 2 * (arc + 1), square.length);
        int[][] loop = {IntStream.range(0, corners.length / 2).toArray()};
        double[] xyz = new double[corners.length / 2 * 3];
        for (int v = 0; v < corners.length / 2; v++) {
            xyz[3 * v] = corners[2 * v];
            xyz[3 * v + 1] = corners[2 * v + 1];
        }
        return new TriangleMesh(xyz, ConstrainedDelaunay.polygon(corners, loop, new int[0]));
    }

    /** In the plane z = 0, front up, around the origin. */
    private static TriangleMesh windowed() {
        TriangleMesh sheet = Shapes.bent(Shapes.sheet(SIDE_MM, 20),
                p -> new Vector3d(p.x - SIDE_MM / 2, p.y - SIDE_MM / 2, 0));
        int[] framed = IntStream.range(0, sheet.triangleCount())
                .filter(t -> Math.max(Math.abs(sheet.centroid(t).x), Math.abs(sheet.centroid(t).y)) > WINDOW_MM / 2)
                .flatMap(t -> Arrays.stream(sheet.triangles(), 3 * t, 3 * t + 3)).toArray();
        return new TriangleMesh(sheet.xyz(), framed);
    }

    private static double ground(TriangleMesh solid, byte[] regions) {
        double[] heights = IntStream.range(0, regions.length).filter(t -> regions[t] == MoldRegion.TOOL.ordinal())
                .mapToDouble(t -> solid.centroid(t).z).sorted().toArray();
        return heights[heights.length / 2];
    }

    /** How far the region stands off the ground on one side of it. */
    private static double highest(TriangleMesh solid, byte[] regions, MoldRegion region, double ground, int side) {
        return IntStream.range(0, regions.length).filter(t -> regions[t] == region.ordinal())
                .flatMap(t -> Arrays.stream(solid.triangles(), 3 * t, 3 * t + 3))
                .mapToDouble(v -> side * (solid.xyz()[3 * v + 2] - ground)).max().orElseThrow();
    }
}
