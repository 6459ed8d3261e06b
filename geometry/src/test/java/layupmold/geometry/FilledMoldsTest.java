package layupmold.geometry;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.SplittableRandom;
import java.util.stream.IntStream;
import layupmold.geometry.bvh.ClosestPoint;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.fillet.FilletFigures;
import layupmold.geometry.finding.Place;
import layupmold.geometry.inspect.Bridge;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.FilletSpec;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Hold;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.testparts.ClosedForms;
import layupmold.geometry.testparts.RandomShells;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.EnumSource;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Molds whose tight corners are filled, held against the same molds unfilled and against balls that are set on them by
 * looking at every triangle nearby.
 */
class FilledMoldsTest {

    private static final int BALLS = 3000;
    /** How far each mold may be off its own target. */
    private static final double TOLERANCE_MM = 0.02;
    /** Of the radius: facets, and the grid of directions in which balls are set on the surface. */
    private static final double RADIUS_TOLERANCE = 0.07;
    /** Directions a degree apart, each way. */
    private static final int TURNS = 21;
    /** Half a mark and the ball beside it. */
    private static final double NEAR_MARK_MM = 2.5;
    private static final double PLEAT_MM = 0.1;
    private static final double MOST_EXCUSED = 0.05;

    @ParameterizedTest
    @EnumSource(Tool.class)
    void aTrayIsFollowedByItsCloth(Tool side) {
        PartFile tray = new PartFile(ClosedForms.tray(90, 60, 30, 2, 5).mesh(), "stl", null, List.of());
        FilletFigures fillet = assertFollowed(tray, Recipe.defaults().withTool(side, Hold.INNER));
        assertTrue(fillet.left().isEmpty(), () -> "left " + fillet.left());
        if (side == Tool.FEMALE) {
            assertEquals((Math.sqrt(3) - 1) * fillet.toolRadiusMm(), fillet.deepestMm(), 0.02);
            // Four floor edges and four upright ones, as wide as the ball's contact on both sides.
            assertTrue(fillet.filledMm2() > 2 * fillet.toolRadiusMm() * (2 * (90 + 60) + 4 * 25), fillet::toString);
        }
    }

    /** The foot of its wall is a corner that the cloth's ball would fill, at the border's cost. */
    @Test
    void aPlugWithATightFootKeepsItsBorder() {
        PartFile tray = new PartFile(ClosedForms.tray(90, 60, 30, 2, 5).mesh(), "stl", null, List.of());
        FlangeSpec spec = FlangeSpec.defaults();
        Recipe recipe = Recipe.defaults().withTool(Tool.MALE, Hold.OUTER).withFillet(new FilletSpec(true, 3.0))
                .withFlange(new FlangeSpec(spec.widthMm(), spec.draftDeg(), spec.riseMm(), 0.5, spec.trimLineDepthMm()));
        MoldOutcome.Mold mold = make(tray, recipe);
        assertTrue(mold.report().flange().leastWidthMm() >= spec.widthMm(), mold.report().flange()::toString);
        assertEquals(List.of(), mold.report().fillet().left());
    }

    /** Where both skirts of a sharp end of the perimeter run into each other, the flange is left as it is. */
    @ParameterizedTest
    @CsvSource({"forearm-left, 8", "mask, 0"})
    void costumePartsAreFollowedByTheirCloth(String name, int mostLeft) throws IOException {
        FilletFigures fillet = assertFollowed(costumePart(name), Recipe.defaults());
        assertTrue(fillet.left().size() <= mostLeft, () -> "left " + fillet.left());
    }

    /** Beside two sharp ends of the tail's perimeter cuts alone made the skirt cross itself, and nothing was filled at all. */
    @Test
    void sharpEndsOfThePerimeterStopNothing() throws IOException {
        FilletFigures fillet = make(costumePart("tail"), Recipe.defaults().withFillet(new FilletSpec(true, null)))
                .report().fillet();
        assertTrue(fillet.filledMm2() > 5000, fillet::toString);
        assertEquals(List.of(), fillet.left());
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 3, 4})
    void randomShellsAreFollowedByTheirCloth(long seed) {
        assertFollowed(new PartFile(RandomShells.shell(seed).mesh(), "stl", null, List.of()), Recipe.defaults());
    }

    @Test
    void nothingChangesUnlessAsked() {
        PartFile tray = new PartFile(ClosedForms.tray(90, 60, 30, 2, 5).mesh(), "stl", null, List.of());
        MoldOutcome.Mold usual = make(tray, Recipe.defaults());
        MoldOutcome.Mold withRadius = make(tray, Recipe.defaults().withFillet(new FilletSpec(false, 4.0)));
        assertArrayEquals(usual.solid().xyz(), withRadius.solid().xyz());
        assertArrayEquals(usual.solid().triangles(), withRadius.solid().triangles());
        assertNull(withRadius.report().fillet());
    }

    private static PartFile costumePart(String name) throws IOException {
        return MeshReader.read(Files.readAllBytes(Path.of("../samples/heron/" + name + ".stl")), name + ".stl",
                MeshLimits.defaults());
    }

    private static MoldOutcome.Mold make(PartFile part, Recipe recipe) {
        MoldOutcome outcome = MoldPipeline.make(part, recipe, Progress.SILENT);
        return assertInstanceOf(MoldOutcome.Mold.class, outcome, outcome::toString);
    }

    private static FilletFigures assertFollowed(PartFile part, Recipe recipe) {
        MoldOutcome.Mold plain = make(part, recipe);
        MoldOutcome.Mold filled = make(part, recipe.withFillet(new FilletSpec(true, null)));
        FilletFigures fillet = filled.report().fillet();
        assertTrue(filled.report().checks().passed());
        assertTrue(filled.report().offset().maxDeviationMm() <= TOLERANCE_MM, filled.report().offset().toString());
        assertFillingsOnlyAdd(plain, filled, fillet);
        List<Vector3d> trim = trimLines(filled);
        assertBallsReachTheTool(filled, fillet, trim);
        for (Bridge bridge : filled.report().fabric().bridges()) {
            Vector3d at = inMold(filled, bridge.at());
            assertTrue(isExcused(filled, at, fillet, trim), () -> "spanned at " + at + ": " + bridge);
        }
        return fillet;
    }

    /** What differs from the unfilled tool lies in front of it, no deeper and no more than reported. */
    private static void assertFillingsOnlyAdd(MoldOutcome.Mold plain, MoldOutcome.Mold filled, FilletFigures fillet) {
        TriangleMesh before = filled.partToMold().apply(plain.partToMold().inverse().apply(plain.solid()));
        TriangleBvh bvh = TriangleBvh.of(before);
        TriangleMesh solid = filled.solid();
        NearestPoint nearest = new NearestPoint();
        double addedMm2 = 0;
        for (int t : tool(filled)) {
            Vector3d p = solid.centroid(t);
            bvh.nearest(p.x, p.y, p.z, Double.POSITIVE_INFINITY, nearest);
            double away = nearest.distance();
            if (away > 2 * TOLERANCE_MM) {
                // Behind the plane of one of the triangles that meet in an edge is not inside yet.
                boolean behind = before.areaNormal(nearest.triangle)
                        .dot(p.x - nearest.x, p.y - nearest.y, p.z - nearest.z) <= 0;
                assertTrue(!behind && t % 50 != 0 || turnsAround(before, p) < 0.5,
                        () -> "tool cut away by " + away + " mm at " + p);
                assertTrue(away <= fillet.deepestMm() + 2 * TOLERANCE_MM, () -> "filled deeper than reported at " + p);
                addedMm2 += solid.areaNormal(t).length() / 2;
            }
        }
        assertTrue(addedMm2 <= 1.1 * fillet.filledMm2() + 1, addedMm2 + " mm² differ, reported " + fillet.filledMm2());
    }

    private static int[] tool(MoldOutcome.Mold mold) {
        return IntStream.range(0, mold.solid().triangleCount())
                .filter(t -> mold.regions()[t] == MoldRegion.TOOL.ordinal()).toArray();
    }

    /** Winding number of a closed surface: 1 inside, 0 outside (van Oosterom and Strackee's solid angles, 1983). */
    private static double turnsAround(TriangleMesh closed, Vector3d p) {
        double sum = 0;
        for (int t = 0; t < closed.triangleCount(); t++) {
            Vector3d a = closed.corner(t, 0).sub(p);
            Vector3d b = closed.corner(t, 1).sub(p);
            Vector3d c = closed.corner(t, 2).sub(p);
            double la = a.length();
            double lb = b.length();
            double lc = c.length();
            double below = la * lb * lc + a.dot(b) * lc + b.dot(c) * la + c.dot(a) * lb;
            sum += 2 * Math.atan2(a.dot(b.cross(c)), below);
        }
        return sum / (4 * Math.PI);
    }

    /** A ball of the radius asked, less a tolerance, reaches every point of the tool but at reported places and marks. */
    private static void assertBallsReachTheTool(MoldOutcome.Mold mold, FilletFigures fillet, List<Vector3d> trim) {
        TriangleMesh solid = mold.solid();
        int[] tool = tool(mold);
        double[] upTo = new double[tool.length + 1];
        for (int i = 0; i < tool.length; i++) {
            upTo[i + 1] = upTo[i] + solid.areaNormal(tool[i]).length() / 2;
        }
        TriangleBvh bvh = TriangleBvh.of(solid);
        SplittableRandom random = new SplittableRandom(5);
        int excused = 0;
        for (int n = 0; n < BALLS; n++) {
            int found = Arrays.binarySearch(upTo, random.nextDouble() * upTo[tool.length]);
            int t = tool[found < 0 ? Math.min(tool.length, -found - 1) - 1 : Math.min(tool.length - 1, found)];
            double u = random.nextDouble();
            double v = random.nextDouble() * (1 - u);
            Vector3d p = solid.corner(t, 0).mul(1 - u - v).fma(u, solid.corner(t, 1)).fma(v, solid.corner(t, 2));
            double enough = (1 - RADIUS_TOLERANCE) * fillet.radiusMm();
            double own = ballMm(solid, bvh, p, solid.areaNormal(t).normalize(), fillet.radiusMm(), enough);
            double radius = own >= enough ? own
                    : Math.max(own, ballMm(solid, bvh, p, front(solid, bvh, p), fillet.radiusMm(), enough));
            if (radius < enough) {
                excused++;
                assertTrue(isExcused(mold, p, fillet, trim),
                        () -> "only a ball of " + radius + " mm touches the tool at " + p);
            }
        }
        assertTrue(excused <= MOST_EXCUSED * BALLS, excused + " of " + BALLS + " points are too tight");
    }

    /** Mean normal around a point: pleats as high as the tool may be off have any. */
    private static Vector3d front(TriangleMesh solid, TriangleBvh bvh, Vector3d p) {
        Vector3d sum = new Vector3d();
        bvh.overlapping(p.x - PLEAT_MM, p.y - PLEAT_MM, p.z - PLEAT_MM, p.x + PLEAT_MM, p.y + PLEAT_MM, p.z + PLEAT_MM,
                t -> {
                    if (away(solid.xyz(), solid.triangles(), t, p, new NearestPoint()) < PLEAT_MM) {
                        sum.add(solid.areaNormal(t));
                    }
                    return true;
                });
        return sum.normalize();
    }

    /** Radius of the largest ball, up to enough, that comes near a point from the front in a direction near its normal. */
    private static double ballMm(
            TriangleMesh solid, TriangleBvh bvh, Vector3d p, Vector3d normal, double radius, double enough) {
        List<Integer> near = new ArrayList<>();
        double reach = 2 * radius;
        bvh.overlapping(p.x - reach, p.y - reach, p.z - reach, p.x + reach, p.y + reach, p.z + reach, near::add);
        Vector3d u = new Vector3d(normal).orthogonalizeUnit(normal, new Vector3d());
        Vector3d w = new Vector3d(normal).cross(u);
        NearestPoint nearest = new NearestPoint();
        double best = 0;
        for (int i = 0; i < TURNS * TURNS && best < enough; i++) {
            double a = Math.toRadians((i / TURNS + 1) / 2 * (1 - 2 * (i / TURNS % 2)));
            double b = Math.toRadians((i % TURNS + 1) / 2 * (1 - 2 * (i % TURNS % 2)));
            Vector3d centre = new Vector3d(normal).fma(a, u).fma(b, w).normalize(radius + TOLERANCE_MM).add(p);
            double free = radius;
            for (int j = 0; j < near.size() && free > best; j++) {
                free = Math.min(free, away(solid.xyz(), solid.triangles(), near.get(j), centre, nearest));
            }
            best = Math.max(best, free);
        }
        return best;
    }

    private static double away(double[] xyz, int[] corners, int t, Vector3d p, NearestPoint nearest) {
        nearest.triangle = -1;
        nearest.distanceSquared = Double.POSITIVE_INFINITY;
        ClosestPoint.onTriangle(xyz, 3 * corners[3 * t], 3 * corners[3 * t + 1], 3 * corners[3 * t + 2],
                p.x, p.y, p.z, t, nearest);
        return nearest.distance();
    }

    /** Marks of trim lines are felt by design; other places have to be reported. */
    private static boolean isExcused(
            MoldOutcome.Mold mold, Vector3d p, FilletFigures fillet, List<Vector3d> trim) {
        return trim.stream().anyMatch(q -> q.distance(p) < NEAR_MARK_MM) || fillet.left().stream()
                .anyMatch(left -> inMold(mold, left.at()).distance(p) < left.reachMm() + 2 * fillet.radiusMm());
    }

    private static Vector3d inMold(MoldOutcome.Mold mold, Place place) {
        return mold.partToMold().apply(new Vector3d(place.x(), place.y(), place.z()));
    }

    /** Points along the borders of the tool surface. */
    private static List<Vector3d> trimLines(MoldOutcome.Mold mold) {
        EdgeTopology edges = EdgeTopology.of(mold.solid());
        List<Vector3d> points = new ArrayList<>();
        for (int h = 0; h < edges.halfEdgeCount(); h++) {
            if (mold.regions()[h / 3] == MoldRegion.TOOL.ordinal()
                    && mold.regions()[edges.twin(h) / 3] != MoldRegion.TOOL.ordinal()) {
                Vector3d a = mold.solid().vertex(edges.from(h));
                Vector3d b = mold.solid().vertex(edges.to(h));
                int count = (int) Math.ceil(a.distance(b));
                for (int i = 0; i <= count; i++) {
                    points.add(new Vector3d(a).lerp(b, (double) i / Math.max(1, count)));
                }
            }
        }
        return points;
    }
}
