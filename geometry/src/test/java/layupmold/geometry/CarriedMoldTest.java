package layupmold.geometry;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.testparts.BaseShape;
import layupmold.geometry.testparts.RandomShells;
import layupmold.geometry.testparts.ShellSpec;
import layupmold.geometry.testparts.TestPart;
import org.joml.Matrix4d;
import org.joml.Vector3d;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

/** A carried mold against the geometry itself: its tool surface must lie at the offset from the other part. */
class CarriedMoldTest {

    private static final Finding NOTE = Finding.info("suit", "mold-mirrored", "as tested");
    private static final Isometry MIRRORED = new Isometry(
            new Matrix4d().translate(30, -20, 70).rotateXYZ(0.4, 1.1, -0.7).scale(1, 1, -1));
    private static TriangleMesh part;
    private static MoldOutcome.Mold made;

    @BeforeAll
    static void make() {
        TestPart shell = RandomShells.shell(ShellSpec.plain(BaseShape.WAVY, 3).withOpenings(1));
        part = shell.mesh();
        MoldOutcome outcome = MoldPipeline.make(new PartFile(part, "stl-binary", null, List.of()),
                Recipe.defaults().withPull(shell.pull()), Progress.SILENT);
        made = assertInstanceOf(MoldOutcome.Mold.class, outcome, outcome::toString);
    }

    @Test
    void theMirroredMoldIsClosedStandsAndHasTheSameVolumeAndRegions() {
        MoldOutcome.Mold twin = (MoldOutcome.Mold) MoldPipeline.carry(made, MIRRORED, NOTE);
        EdgeTopology topology = EdgeTopology.of(twin.solid());
        assertEquals(0, topology.boundaryCount());
        assertEquals(0, topology.nonManifoldCount());
        assertEquals(made.solid().volume(), twin.solid().volume(), 1e-9 * made.solid().volume());
        assertTrue(twin.solid().volume() > 0);
        assertEquals(0, twin.solid().bounds()[2]);
        assertArrayEquals(made.regions(), twin.regions());
        for (int t = 0; t < twin.solid().triangleCount(); t++) {
            Vector3d a = made.solid().centroid(t);
            assertTrue(twin.solid().centroid(t).distance(-a.x, a.y, a.z) < 1e-9);
        }
    }

    /** The twin's outer wall, taken to the mold by its transform, keeps the offset that the part's has. */
    @Test
    void theToolSurfaceLiesAtTheOffsetFromTheTwin() {
        MoldOutcome.Mold twin = (MoldOutcome.Mold) MoldPipeline.carry(made, MIRRORED, NOTE);
        assertEquals(1, twin.partToMold().matrix().determinant3x3(), 1e-9);
        double[] xyz = new double[part.xyz().length];
        for (int v = 0; v < part.vertexCount(); v++) {
            Vector3d p = twin.partToMold().apply(MIRRORED.apply(part.vertex(v)));
            xyz[3 * v] = p.x;
            xyz[3 * v + 1] = p.y;
            xyz[3 * v + 2] = p.z;
        }
        TriangleBvh twinPart = TriangleBvh.of(new TriangleMesh(xyz, part.triangles()));
        NearestPoint nearest = new NearestPoint();
        double offset = made.report().offset().signedMm();
        double worst = 0;
        for (int t = 0; t < twin.solid().triangleCount(); t++) {
            if (twin.regions()[t] == MoldRegion.TOOL.ordinal()) {
                Vector3d c = twin.solid().centroid(t);
                twinPart.nearest(c.x, c.y, c.z, 10, nearest);
                worst = Math.max(worst, Math.abs(nearest.distance() - offset));
            }
        }
        // The pipeline's own bound on single places, and the trim groove's depth.
        assertTrue(worst < 0.5, "off by " + worst);
    }

    @Test
    void figuresStayAndPlacesMove() {
        MoldOutcome.Mold twin = (MoldOutcome.Mold) MoldPipeline.carry(made, MIRRORED, NOTE);
        assertEquals(made.report().checks(), twin.report().checks());
        assertEquals(made.report().body().leastWallMm(), twin.report().body().leastWallMm());
        Place before = made.report().body().leastWallPlace();
        Place after = twin.report().body().leastWallPlace();
        assertTrue(MIRRORED.apply(new Vector3d(before.x(), before.y(), before.z()))
                .distance(after.x(), after.y(), after.z()) < 1e-9);
        assertSame(NOTE, twin.report().findings().get(twin.report().findings().size() - 1));
        Vector3d pull = MIRRORED.applyToDirection(made.report().pull().direction());
        assertTrue(pull.distance(twin.report().pull().direction()) < 1e-12);
        assertTrue(twin.partToMold().applyToDirection(pull).distance(0, 0, 1) < 1e-9);
    }

    @Test
    void withoutAMirrorTheSolidIsTheSame() {
        Isometry turned = new Isometry(new Matrix4d().translate(1, 2, 3).rotateX(0.3));
        MoldOutcome.Mold twin = (MoldOutcome.Mold) MoldPipeline.carry(made, turned, NOTE);
        assertSame(made.solid(), twin.solid());
        Vector3d p = part.vertex(17);
        assertTrue(twin.partToMold().apply(turned.apply(p)).distance(made.partToMold().apply(p)) < 1e-9);
    }

    @Test
    void aRefusalMovesItsPlace() {
        Finding reason = new Rejection(Finding.error("face", "wall-not-found", "No wall.").at(new Place(1, 2, 3, 9)))
                .finding();
        MoldOutcome.Rejected twin = (MoldOutcome.Rejected) MoldPipeline.carry(
                new MoldOutcome.Rejected(reason, List.of(reason)), Isometry.mirrorX(), NOTE);
        assertEquals(Place.at(-1, 2, 3), twin.reason().place());
        assertEquals(2, twin.findings().size());
    }
}
