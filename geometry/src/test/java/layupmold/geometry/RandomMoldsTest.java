package layupmold.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.SplittableRandom;
import java.util.TreeMap;
import layupmold.geometry.bvh.ClosestPoint;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.inspect.ToolDeviation;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Hold;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.testparts.RandomSheets;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * Molds of random parts, each held to what a mold must be by means that share nothing with how it was made: edges counted
 * one by one, and distances to the part from every one of its triangles. A few parts by default; thousands by
 * {@code mvn -q -pl geometry test -Dtest=RandomMoldsTest -Dlayupmold.parts=2000}.
 */
class RandomMoldsTest {

    private static final int PARTS = Integer.getInteger("layupmold.parts", 16);
    private static final long FIRST_SEED = Long.getLong("layupmold.first", 1);
    private static final int SAMPLES = 5000;
    private static final double REJECTED_SHARE = 0.1;
    private static final double MITRE_LIMIT = 2.5;
    /** Of the flange's wall, and what its facets may lose of the draft at the skirt's corners. */
    private static final double STEEP_SHARE = 0.01;
    private static final double STEEPER_DEG = 2;
    /** Triangles as near as this to the nearest one meet at the nearest point. */
    private static final double SAME_MM = 1e-7;
    /** Nearer to the perimeter than this, what the flange is made of may be in the way of the offset. */
    private static final double FLANGE_MM = 3;

    /** How far a point of the tool is off: positive where it is too far from the part; and the point, in the mold's frame. */
    private record Off(double mm, Vector3d place) {
        @Override
        public String toString() {
            return String.format(Locale.ROOT, "%.4f mm at (%.3f %.3f %.3f)", mm, place.x, place.y, place.z);
        }
    }

    /** What was wrong with molds of these seeds once. */
    @ParameterizedTest
    @ValueSource(longs = {
        10216, // in a valley, a mitred edge went on over the other side by 0.027 mm
        10041, // on a ridge of 80 degrees, triangles cut into the round offset by 0.027 mm
        30123, // a mitre that a valley leaves no room for was 0.027 mm high at its end
        40226, // a split whose new corner had another layer in its way went no step, now half of it
        20084, 20119, 20264, 20289, // flips that were undone in the next round, for want of a close look
        40270, 50096, 50224, 60007, // places smaller than a cell were not contoured again
        110273, // beside a mitre, 0.023 mm between the points that were looked at
        130037, // a miss that shrank with the grid's cells only was still 0.0204 mm after the last attempt
        70157, // a flat corner of the flange's inner rim was drawn out to its outline
    })
    void noMoldIsWrongAgain(long seed) {
        Trial trial = new Trial().make(seed);
        assertEquals(List.of(), trial.wrong);
        assertEquals(Map.of(), trial.rejected);
    }

    @Test
    void everyMoldIsClosedAndAtItsOffset() {
        Trial trial = new Trial();
        for (long seed = FIRST_SEED; seed < FIRST_SEED + PARTS; seed++) {
            trial.make(seed);
        }
        int refused = trial.rejected.values().stream().mapToInt(List::size).sum();
        System.out.println(PARTS + " parts from seed " + FIRST_SEED + ": " + (PARTS - refused) + " molds, the worst "
                + trial.worst + "; rejected " + refused + " " + trial.rejected + "; wrong " + trial.wrong);
        assertEquals(List.of(), trial.wrong, "seeds of molds that are not what was promised, and why");
        assertTrue(refused <= Math.max(1, REJECTED_SHARE * PARTS), refused + " of " + PARTS + " rejected: " + trial.rejected);
    }

    /** Goes on where a mold is wrong, so that all that are can be told. */
    private static final class Trial {
        private final Map<String, List<Long>> rejected = new TreeMap<>();
        private final List<String> wrong = new ArrayList<>();
        private Off worst = new Off(0, new Vector3d());

        Trial make(long seed) {
            SplittableRandom random = new SplittableRandom(~seed);
            Recipe recipe = recipe(random);
            String what = seed + " " + recipe.tool() + " " + recipe.hold() + ": ";
            try {
                hold(seed, what, recipe, random);
            } catch (RuntimeException | AssertionError e) {
                add(what + e);
            }
            return this;
        }

        private void hold(long seed, String what, Recipe recipe, SplittableRandom random) {
            TriangleMesh part = RandomSheets.sheet(seed);
            MoldOutcome outcome = MoldPipeline.make(new PartFile(part, "ply", null, List.of()), recipe, Progress.SILENT);
            if (outcome instanceof MoldOutcome.Mold mold) {
                assertClosed(mold.solid());
                assertWallReleases(mold, recipe.flange().draftDeg());
                Off off = worst(mold, part, random);
                worst = Math.abs(off.mm) > Math.abs(worst.mm) ? off : worst;
                if (Math.abs(off.mm) > ToolDeviation.TOLERANCE_MM) {
                    add(what + off);
                }
            } else if (outcome instanceof MoldOutcome.Rejected no) {
                rejected.computeIfAbsent(no.reason().code(), code -> new ArrayList<>()).add(seed);
                System.out.println("rejected " + what + no.reason());
            }
        }

        private void add(String fault) {
            wrong.add(fault);
            System.out.println("wrong " + fault);
        }
    }

    private static Recipe recipe(SplittableRandom random) {
        Tool side = random.nextBoolean() ? Tool.FEMALE : Tool.MALE;
        Hold held = random.nextBoolean() ? Hold.INNER : Hold.OUTER;
        FlangeSpec flange = FlangeSpec.defaults();
        return Recipe.defaults().withTool(side, held).withFlange(flange).withPull(new Vector3d(0, 0, 1));
    }

    private static void assertClosed(TriangleMesh solid) {
        Map<Long, Integer> edges = new HashMap<>();
        int[] corners = solid.triangles();
        for (int i = 0; i < corners.length; i++) {
            long from = corners[i];
            long to = corners[i / 3 * 3 + (i + 1) % 3];
            assertNull(edges.put(from << 32 | to, i), "an edge is used twice in one direction");
        }
        edges.keySet().forEach(key -> assertTrue(edges.containsKey(key << 32 | key >>> 32), "an edge has no other side"));
        assertTrue(solid.volume() > 0, "inside out");
        assertEquals(0, SelfIntersections.find(solid, TriangleBvh.of(solid), 10).length, "crosses itself");
    }

    /** All of the flange's wall but crumbs at the trim line's mark keeps about its draft. */
    private static void assertWallReleases(MoldOutcome.Mold mold, double draftDeg) {
        double area = 0;
        double steep = 0;
        for (int t = 0; t < mold.regions().length; t++) {
            if (MoldRegion.of(mold.regions()[t]) == MoldRegion.WALL) {
                Vector3d normal = mold.solid().areaNormal(t);
                area += normal.length();
                steep += normal.z < Math.sin(Math.toRadians(draftDeg - STEEPER_DEG)) * normal.length() ? normal.length() : 0;
            }
        }
        assertTrue(steep < STEEP_SHARE * area, steep / 2 + " of " + area / 2 + " mm² of the wall are too steep");
    }

    /** Where, by sampling, the tool is farthest from where it must be: no nearer to any triangle of the part, nor farther. */
    private static Off worst(MoldOutcome.Mold mold, TriangleMesh part, SplittableRandom random) {
        TriangleMesh face = mold.partToMold().apply(part);
        double offset = Math.abs(mold.report().offset().signedMm());
        int[] tool = toolTriangles(mold);
        EdgeTopology edges = EdgeTopology.of(face);
        int[] perimeter = edges.boundaryLoops().get(0);
        List<Vector3d> places = new ArrayList<>();
        for (int s = 0; s < SAMPLES; s++) {
            int t = tool[random.nextInt(tool.length)];
            double a = Math.sqrt(random.nextDouble());
            double b = random.nextDouble();
            Vector3d p = new Vector3d();
            for (int k = 0; k < 3; k++) {
                double weight = k == 0 ? 1 - a : k == 1 ? a * (1 - b) : a * b;
                p.add(mold.solid().vertex(mold.solid().triangles()[3 * t + k]).mul(weight));
            }
            places.add(p);
        }
        return places.parallelStream().map(p -> new Off(off(p, face, offset), p))
                .filter(off -> off.mm <= ToolDeviation.TOLERANCE_MM || distance(off.place, face, edges, perimeter) >= FLANGE_MM)
                .max(Comparator.comparingDouble(off -> Math.abs(off.mm))).orElseThrow();
    }

    private static double distance(Vector3d p, TriangleMesh face, EdgeTopology edges, int[] perimeter) {
        double least = Double.POSITIVE_INFINITY;
        for (int h : perimeter) {
            Vector3d a = face.vertex(edges.from(h));
            Vector3d d = face.vertex(edges.to(h)).sub(a);
            double share = Math.max(0, Math.min(1, d.dot(p.sub(a, new Vector3d())) / d.lengthSquared()));
            least = Math.min(least, p.distance(d.mul(share).add(a)));
        }
        return least;
    }

    private static int[] toolTriangles(MoldOutcome.Mold mold) {
        List<Integer> tool = new ArrayList<>();
        for (int t = 0; t < mold.regions().length; t++) {
            if (MoldRegion.of(mold.regions()[t]) == MoldRegion.TOOL) {
                tool.add(t);
            }
        }
        if (tool.isEmpty()) {
            fail("no tool surface");
        }
        return tool.stream().mapToInt(Integer::intValue).toArray();
    }

    /**
     * How much farther {@code p} is than the offset, by the distance to every triangle. In front of an edge or a corner it
     * may be farther than the offset, but not over all the planes that meet there (a mitre), nor beyond the mitre's limit.
     */
    private static double off(Vector3d p, TriangleMesh face, double offset) {
        int[] corners = face.triangles();
        double[] squares = new double[face.triangleCount()];
        NearestPoint nearest = new NearestPoint();
        double least = Double.POSITIVE_INFINITY;
        for (int t = 0; t < squares.length; t++) {
            squares[t] = squaredDistance(p, face, corners, t, nearest);
            least = Math.min(least, squares[t]);
        }
        double distance = Math.sqrt(least);
        if (distance < offset) {
            return distance - offset;
        }
        double highest = distance / MITRE_LIMIT;
        for (int t = 0; t < squares.length; t++) {
            if (squares[t] < (distance + SAME_MM) * (distance + SAME_MM)) {
                squaredDistance(p, face, corners, t, nearest);
                Vector3d n = face.areaNormal(t).normalize();
                highest = Math.max(highest, Math.abs(n.dot(p.x - nearest.x, p.y - nearest.y, p.z - nearest.z)));
            }
        }
        return Math.max(0, highest - offset);
    }

    private static double squaredDistance(Vector3d p, TriangleMesh face, int[] corners, int t, NearestPoint nearest) {
        nearest.begin(Double.POSITIVE_INFINITY);
        ClosestPoint.onTriangle(face.xyz(), 3 * corners[3 * t], 3 * corners[3 * t + 1], 3 * corners[3 * t + 2],
                p.x, p.y, p.z, t, nearest);
        return nearest.distanceSquared;
    }
}
