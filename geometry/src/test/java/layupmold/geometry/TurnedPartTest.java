package layupmold.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import layupmold.geometry.inspect.DemoldFigures;
import layupmold.geometry.inspect.DraftFigures;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.report.MoldReport;
import layupmold.geometry.testparts.ClosedForms;
import layupmold.geometry.testparts.TestPart;
import org.joml.Matrix4d;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

/** How a part lies in its file's frame must not matter: turned with its pull, it has the same draft and undercut. */
class TurnedPartTest {

    private static final RigidTransform TURN =
            new RigidTransform(new Matrix4d().translate(300, -120, 45).rotateXYZ(1.1, -0.6, 2.3));

    @Test
    void draftAndUndercutStayAndPlacesTurnWithThePart() {
        TestPart part = ClosedForms.sphericalCap(40, 75, 2.5, 96);
        // Leaning by 30° puts one side of the cap 15° past upright.
        Vector3d pull = new Vector3d(part.pull()).rotateY(Math.toRadians(30));
        MoldReport plain = report(part.mesh(), pull);
        MoldReport turned = report(TURN.apply(part.mesh()), TURN.applyToDirection(pull));
        DemoldFigures a = plain.demold();
        DemoldFigures b = turned.demold();
        assertTrue(a.undercutMm2() > 100, "undercut " + a.undercutMm2());
        assertEquals(a.verdict(), b.verdict());
        assertEquals(a.undercutMm2(), b.undercutMm2(), 0.01 * a.undercutMm2());
        // The cap's rim leans out by 15°, turned by 30° it leans in by as much; facets are 3.75° wide.
        DraftFigures tool = a.drafts().get(0);
        DraftFigures toolTurned = b.drafts().get(0);
        assertEquals(MoldRegion.TOOL, tool.region());
        assertEquals(-15, tool.leastDeg(), 2);
        assertEquals(tool.leastDeg(), toolTurned.leastDeg(), 0.05);
        for (int i = 0; i < a.drafts().size(); i++) {
            DraftFigures here = a.drafts().get(i);
            assertEquals(here.tightMm2(), b.drafts().get(i).tightMm2(), 0.01 * a.undercutMm2(), here.region().toString());
        }
        assertEquals(a.lockedRegions().get(0).depthMm(), b.lockedRegions().get(0).depthMm(), 0.02);
        Vector3d place = TURN.apply(a.lockedRegions().get(0).at().point());
        // The rim's facets are 2.6 mm long.
        assertEquals(0, place.distance(b.lockedRegions().get(0).at().point()), 2.6);
        // At its rim the cap has 15° of draft, so that every pull within 15° of its axis frees it.
        double off = Math.toDegrees(a.otherPull().direction().angle(part.pull()));
        double offTurned = Math.toDegrees(b.otherPull().direction().angle(TURN.applyToDirection(part.pull())));
        assertTrue(off < 18 && offTurned < 18, off + " and " + offTurned);
    }

    private static MoldReport report(TriangleMesh mesh, Vector3d pull) {
        MoldOutcome outcome = MoldPipeline.make(
                new PartFile(mesh, "stl-binary", null, List.of()), Recipe.defaults().withPull(pull), Progress.SILENT);
        if (outcome instanceof MoldOutcome.Rejected rejected) {
            throw new AssertionError(rejected.reason().toString());
        }
        return ((MoldOutcome.Mold) outcome).report();
    }
}
