package layupmold.geometry.kit;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertInstanceOf;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.Progress;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.Hold;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.recipe.Tool;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

class CouponTest {

    private static final Progress SILENT = (stage, share) -> {
    };

    /** A shallow bowl with one steep bump: the hardest place is known. */
    private static MoldOutcome.Mold bumpyBowl(Recipe recipe) {
        int cells = 64;
        double[] xyz = new double[3 * (cells + 1) * (cells + 1)];
        int[] triangles = new int[6 * cells * cells];
        int n = 0;
        for (int i = 0; i <= cells; i++) {
            for (int j = 0; j <= cells; j++) {
                int v = i * (cells + 1) + j;
                double x = 180.0 * j / cells - 90;
                double y = 180.0 * i / cells - 90;
                double bump = Math.hypot(x - 35, y + 30) / 14;
                xyz[3 * v] = x;
                xyz[3 * v + 1] = y;
                xyz[3 * v + 2] = (x * x + y * y) / 600 - 14 * Math.exp(-bump * bump);
                if (i < cells && j < cells) {
                    for (int corner : new int[] {v, v + 1, v + cells + 2, v, v + cells + 2, v + cells + 1}) {
                        triangles[n++] = corner;
                    }
                }
            }
        }
        MoldOutcome outcome = MoldPipeline.make(
                new PartFile(new TriangleMesh(xyz, triangles), "stl-binary", null, List.of()),
                recipe.withPull(new Vector3d(0, 0, 1)), SILENT);
        return assertInstanceOf(MoldOutcome.Mold.class, outcome, outcome.toString());
    }

    private static Coupon coupon(MoldOutcome.Mold mold, Recipe recipe) {
        return Coupon.of(mold, recipe, KitSpec.defaults(), SILENT);
    }

    @Test
    void itIsCutFromTheHardestPlaceAndPrintsWithinTheHour() {
        MoldOutcome.Mold mold = bumpyBowl(Recipe.defaults());
        Coupon coupon = coupon(mold, Recipe.defaults());
        assertTrue(Math.hypot(coupon.at().x - 35, coupon.at().y + 30) < 25, "at " + coupon.at());
        assertTrue(coupon.printMinutes() <= 60 && coupon.printMinutes() > 10, coupon.printMinutes() + " min");
        assertTrue(coupon.sizeMm() >= 24, "size " + coupon.sizeMm());
        assertEquals(0, coupon.mold().report().checks().boundaryEdges());
        assertTrue(coupon.mold().report().flange().leastWidthMm() >= 4);
        assertEquals(mold.report().offset().signedMm(), coupon.mold().report().offset().signedMm());
    }

    /** Its tool surface is the part's own tool surface: put back in its place it lies within the offset's tolerance. */
    @Test
    void itsToolSurfaceIsThePartsOwn() {
        for (Recipe recipe : List.of(Recipe.defaults(), Recipe.defaults().withTool(Tool.MALE, Hold.OUTER))) {
            MoldOutcome.Mold mold = bumpyBowl(recipe);
            Coupon coupon = coupon(mold, recipe);
            TriangleBvh tool = TriangleBvh.of(mold.solid());
            NearestPoint nearest = new NearestPoint();
            TriangleMesh solid = coupon.mold().solid();
            double worst = 0;
            int checked = 0;
            for (int t = 0; t < solid.triangleCount(); t++) {
                if (MoldRegion.of(coupon.mold().regions()[t]) != MoldRegion.TOOL) {
                    continue;
                }
                Vector3d there = coupon.mold().partToMold().inverse().apply(solid.centroid(t));
                // The trim mark runs along the cut, where the part's tool has none.
                double inside = coupon.sizeMm() / 2 - Math.max(Math.abs(there.x - coupon.place().centre().x),
                        Math.abs(there.y - coupon.place().centre().y));
                if (inside > 3) {
                    tool.nearest(there.x, there.y, there.z, 10, nearest);
                    worst = Math.max(worst, nearest.distance());
                    checked++;
                }
            }
            assertTrue(checked > 80, checked + " triangles");
            assertTrue(worst < 0.05, recipe.tool() + ": off by " + worst);
        }
    }

    @Test
    void aPrinterTooSlowForTheHourIsToldSo() {
        Recipe slow = Recipe.defaults().withInspect(Recipe.defaults().inspect().withSpeed(2));
        MoldOutcome.Mold mold = bumpyBowl(slow);
        Rejection refused = assertThrows(Rejection.class, () -> coupon(mold, slow));
        assertEquals("coupon-prints-too-long", refused.finding().code());
    }
}
