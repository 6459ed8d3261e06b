package layupmold.geometry.flange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.stream.IntStream;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.face.FaceExtraction;
import layupmold.geometry.face.RevolvedShell;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.FlangeSpec;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.testparts.HeelCup;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PerimeterSkirtTest {

    private static final double DRAFT = 5;

    /** A bowl's rim at polar angle a has the elevation a; the skirt goes on at that, but no steeper than 85°. */
    @ParameterizedTest
    @ValueSource(doubles = {20, 60, 80, 90, 120})
    void goesOnAtTheSlopeOfTheRim(double polarDeg) {
        TriangleMesh bowl = Shapes.bowl(50, polarDeg, 200, 720);
        PerimeterSkirt.Result skirt = skirt(bowl, new FlangeSpec(20, DRAFT, 3, 2, 0), 1, 2);
        double elevation = Math.toRadians(Math.min(polarDeg, 90 - DRAFT));
        Vector3d rim = bowl.vertex(perimeter(bowl)[0]);
        Vector3d end = skirt.mesh().vertex(skirt.ring()[0]);
        assertEquals(2 * Math.sin(elevation), end.z - rim.z, 0.02);
        assertEquals(2 * Math.cos(elevation), Math.hypot(end.x, end.y) - Math.hypot(rim.x, rim.y), 0.02);
    }

    /** Nothing of the mark keeps the part in the mold, whatever the slope. */
    @ParameterizedTest
    @ValueSource(doubles = {10, 45, 75, 89, 110})
    void theMarkHasDraft(double polarDeg) {
        for (double up : new double[] {1, -1}) {
            TriangleMesh bowl = Shapes.bowl(50, polarDeg, 100, 360);
            TriangleMesh sheet = up > 0 ? bowl : mirrored(bowl);
            PerimeterSkirt.Result skirt = skirt(sheet, new FlangeSpec(20, DRAFT, 3, 2, 0.3), up, 1);
            for (int t = sheet.triangleCount(); t < skirt.mesh().triangleCount(); t++) {
                Vector3d n = skirt.mesh().areaNormal(t).normalize();
                assertTrue(Math.toDegrees(Math.asin(n.z)) > DRAFT - 0.2, "draft " + Math.toDegrees(Math.asin(n.z)));
            }
        }
    }

    /** One odd triangle at the edge, level on a slope of 34°, does not turn the skirt. */
    @Test
    void aSingleOddTriangleTurnsNothing() {
        TriangleMesh bowl = Shapes.bowl(50, 40, 40, 180);
        double[] xyz = bowl.xyz().clone();
        int odd = perimeter(bowl)[0];
        xyz[3 * odd] *= 1.001;
        xyz[3 * odd + 1] *= 1.001;
        PerimeterSkirt.Result skirt = skirt(new TriangleMesh(xyz, bowl.triangles()), FlangeSpec.defaults(), 1, 1);
        assertEquals(0, SelfIntersections.find(skirt.mesh(), TriangleBvh.of(skirt.mesh()), 10).length);
        double least = Double.POSITIVE_INFINITY;
        double most = 0;
        for (int v : skirt.ring()) {
            double r = Math.hypot(skirt.mesh().vertex(v).x, skirt.mesh().vertex(v).y);
            least = Math.min(least, r);
            most = Math.max(most, r);
        }
        assertTrue(most - least < 0.2, "the ring's radius varies by " + (most - least));
    }

    /** In a groove of 1 mm that runs out over a round there is room for next to none: it goes on as its own edge does. */
    @ParameterizedTest
    @ValueSource(doubles = {0.95, 1.25, 1.85})
    void findsRoomInAGrooveThatRunsOut(double offsetMm) {
        int around = 720;
        RevolvedShell.Rim round = RevolvedShell.Rim.COARSE_ROUND;
        RevolvedShell shell = RevolvedShell.sphere(80, 4, 30, round, around, 30)
                .withMeridians(RevolvedShell.sphere(79, 3, 30, round, around, 30), around, 180, 181, 30);
        TriangleMesh part = shell.mesh();
        TriangleMesh face = FaceExtraction.extract(part, EdgeTopology.of(part), new Vector3d(0, 0, 1), new Keep.Outer())
                .mesh().flipped();
        PerimeterSkirt.Result skirt = PerimeterSkirt.around(face, new byte[face.triangleCount()], perimeter(face), 1,
                FlangeSpec.defaults(), offsetMm, 1.1 * offsetMm).grow();
        assertEquals(0, SelfIntersections.find(skirt.mesh(), TriangleBvh.of(skirt.mesh()), 10).length);
        assertTrue(PerimeterPlan.faults(skirt.mesh().xyz(), skirt.ring()).isEmpty(), "seen along the pull");
    }

    /** Seen along the pull a steep perimeter hardly shows where out is; the face beside it does: along a sphere. */
    @Test
    void goesOnAlongTheFaceWhereThePerimeterRunsUpThePull() {
        TriangleMesh cup = HeelCup.cutAt(10, 2, 1).flipped();
        int[] perimeter = perimeter(cup);
        PerimeterSkirt.Result skirt = skirt(cup, new FlangeSpec(20, DRAFT, 3, 2, 0), 1, 2);
        int steep = 0;
        for (int i = 0; i < perimeter.length; i++) {
            Vector3d from = cup.vertex(perimeter[i]);
            if (from.z < -4 && from.z > -10) {
                Vector3d along = skirt.mesh().vertex(skirt.ring()[i]).sub(from).normalize();
                assertEquals(0, along.dot(from.normalize(new Vector3d())), 0.05, "at " + from);
                steep++;
            }
        }
        assertTrue(steep > 10);
    }

    /** A square plate's skirt is a frame of one width, its corners mitred. */
    @Test
    void cornersAreMitred() {
        TriangleMesh plate = Shapes.sheet(40, 10);
        PerimeterSkirt.Result skirt = skirt(plate, new FlangeSpec(20, DRAFT, 3, 2, 0), 1, 1.5);
        double[] face = plate.bounds();
        double[] grown = skirt.mesh().bounds();
        for (int v : skirt.ring()) {
            Vector3d p = skirt.mesh().vertex(v);
            double in = Math.min(Math.min(p.x - grown[0], grown[3] - p.x), Math.min(p.y - grown[1], grown[4] - p.y));
            assertEquals(0, in, 1e-9, "the ring is the larger square: " + p);
        }
        assertEquals(1.5, grown[3] - face[3], 1e-9);
        assertEquals(1.5, face[1] - grown[1], 1e-9);
        assertTrue(IntStream.of(skirt.ring()).mapToObj(skirt.mesh()::vertex)
                .anyMatch(p -> Math.abs(p.x - grown[3]) < 1e-9 && Math.abs(p.y - grown[4]) < 1e-9), "with its corners");
    }

    private static PerimeterSkirt.Result skirt(TriangleMesh face, FlangeSpec spec, double up, double plainMm) {
        return PerimeterSkirt.around(face, new byte[face.triangleCount()], perimeter(face), up, spec, 0, plainMm)
                .grow();
    }

    private static int[] perimeter(TriangleMesh face) {
        return Shapes.outline(face);
    }

    /** The dome that the bowl is from below, facing up. */
    private static TriangleMesh mirrored(TriangleMesh bowl) {
        double[] xyz = bowl.xyz().clone();
        for (int i = 0; i < xyz.length; i += 3) {
            xyz[i] = -xyz[i];
            xyz[i + 2] = -xyz[i + 2];
        }
        return new TriangleMesh(xyz, bowl.triangles()).flipped().flipped();
    }
}
