package layupmold.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assertions.fail;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
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

/**
 * Molds of random parts, each held to what a mold must be by means that share nothing with how it was made: edges counted
 * one by one, and distances to the part from every one of its triangles. A few parts by default; thousands by
 * {@code mvn -q -pl geometry test -Dtest=RandomMoldsTest -Dlayupmold.parts=2000}.
 */
class RandomMoldsTest {

    private static final int PARTS = Integer.getInteger("layupmold.parts", 16);
    private static final long FIRST_SEED = Long.getLong("layupmold.first", 1);
    private static final int SAMPLES = 1500;
    private static final double REJECTED_SHARE = 0.1;
    private static final double MITRE_LIMIT = 2.5;
    /** Nearer to the perimeter than this, what the flange is made of may be in the way of the offset. */
    private static final double FLANGE_MM = 3;

    @Test
    void everyMoldIsClosedAndAtItsOffset() {
        Map<String, Integer> rejected = new TreeMap<>();
        List<String> farOff = new ArrayList<>();
        for (long seed = FIRST_SEED; seed < FIRST_SEED + PARTS; seed++) {
            SplittableRandom random = new SplittableRandom(~seed);
            Recipe recipe = recipe(random);
            TriangleMesh part = RandomSheets.sheet(seed);
            MoldOutcome outcome = MoldPipeline.make(new PartFile(part, "ply", null, List.of()), recipe, Progress.SILENT);
            if (outcome instanceof MoldOutcome.Mold mold) {
                assertClosed(seed, mold.solid());
                double worst = worst(seed, mold, part, random);
                if (worst > ToolDeviation.TOLERANCE_MM) {
                    farOff.add(seed + ": " + worst);
                }
            } else if (outcome instanceof MoldOutcome.Rejected no) {
                rejected.merge(no.reason().code(), 1, Integer::sum);
                System.out.println("seed " + seed + " rejected: " + no.reason());
            }
        }
        System.out.println(PARTS + " parts; rejected " + rejected + "; farther off than promised " + farOff);
        assertEquals(List.of(), farOff, "seeds of molds farther off than promised, and by how many mm");
        int count = rejected.values().stream().mapToInt(Integer::intValue).sum();
        assertTrue(count <= Math.max(1, REJECTED_SHARE * PARTS), count + " of " + PARTS + " rejected: " + rejected);
    }

    private static Recipe recipe(SplittableRandom random) {
        Tool side = random.nextBoolean() ? Tool.FEMALE : Tool.MALE;
        Hold held = random.nextBoolean() ? Hold.INNER : Hold.OUTER;
        FlangeSpec flange = FlangeSpec.defaults();
        return Recipe.defaults().withTool(side, held).withFlange(flange).withPull(new Vector3d(0, 0, 1));
    }

    private static void assertClosed(long seed, TriangleMesh solid) {
        Map<Long, Integer> edges = new HashMap<>();
        int[] corners = solid.triangles();
        for (int i = 0; i < corners.length; i++) {
            long from = corners[i];
            long to = corners[i / 3 * 3 + (i + 1) % 3];
            assertEquals(null, edges.put(from << 32 | to, i), "seed " + seed + ": an edge is used twice in one direction");
        }
        edges.keySet().forEach(key -> assertTrue(edges.containsKey(key << 32 | key >>> 32),
                "seed " + seed + ": an edge has no other side"));
        assertTrue(solid.volume() > 0, "seed " + seed + " is inside out");
        assertEquals(0, SelfIntersections.find(solid, TriangleBvh.of(solid), 10).length, "seed " + seed + " crosses itself");
    }

    /** Greatest distance, by sampling, of the tool from where it must be: no nearer to any triangle of the part, nor farther. */
    private static double worst(long seed, MoldOutcome.Mold mold, TriangleMesh part, SplittableRandom random) {
        TriangleMesh face = mold.partToMold().apply(part);
        double offset = Math.abs(mold.report().offset().signedMm());
        int[] tool = toolTriangles(mold);
        int[] perimeter = EdgeTopology.of(face).boundaryLoops().get(0);
        EdgeTopology edges = EdgeTopology.of(face);
        double worst = 0;
        for (int s = 0; s < SAMPLES; s++) {
            int t = tool[random.nextInt(tool.length)];
            double a = Math.sqrt(random.nextDouble());
            double b = random.nextDouble();
            Vector3d p = new Vector3d();
            for (int k = 0; k < 3; k++) {
                double weight = k == 0 ? 1 - a : k == 1 ? a * (1 - b) : a * b;
                p.add(mold.solid().vertex(mold.solid().triangles()[3 * t + k]).mul(weight));
            }
            double off = off(p, face, offset);
            boolean farther = off > ToolDeviation.TOLERANCE_MM && distance(p, face, edges, perimeter) < FLANGE_MM;
            worst = Math.max(worst, farther ? 0 : off);
        }
        return worst;
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

    /** Nearest point of every triangle by force. Beyond an edge that bends, a mitre may be farther. */
    private static double off(Vector3d p, TriangleMesh face, double offset) {
        NearestPoint nearest = new NearestPoint();
        nearest.triangle = -1;
        nearest.distanceSquared = Double.POSITIVE_INFINITY;
        int[] corners = face.triangles();
        double distance = Double.POSITIVE_INFINITY;
        for (int t = 0; t < face.triangleCount(); t++) {
            ClosestPoint.onTriangle(face.xyz(), 3 * corners[3 * t], 3 * corners[3 * t + 1], 3 * corners[3 * t + 2],
                    p.x, p.y, p.z, t, nearest);
        }
        distance = Math.sqrt(nearest.distanceSquared);
        if (distance < offset) {
            return offset - distance;
        }
        Vector3d n = face.areaNormal(nearest.triangle).normalize();
        double height = Math.abs(n.dot(p.x - nearest.x, p.y - nearest.y, p.z - nearest.z));
        // Straight above the inside of a triangle there is no mitre; elsewhere it is bounded by the limit.
        boolean above = height > distance * (1 - 1e-9);
        return above ? distance - offset : Math.max(0, distance - MITRE_LIMIT * offset);
    }
}
