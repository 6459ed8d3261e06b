package layupmold.geometry.opening;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.DoubleStream;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.Progress;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.Recipe;
import org.joml.Vector3d;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import org.junit.jupiter.params.provider.ValueSource;

/** Openings as boolean operations cut them: what comes of them must not hang on where their rims' corners fell. */
class CutOpeningsTest {

    private static final double RADIUS = 50;
    private static final double WIDTH = 0.8;

    static DoubleStream holeRadii() {
        return DoubleStream.iterate(8, r -> r < 11.5, r -> r + 0.3);
    }

    @ParameterizedTest
    @MethodSource("holeRadii")
    void capContinuesTheSphereInFewTriangles(double holeRadius) {
        HoledSheet sheet = dome(holeRadius);
        CappedFace capped = sheet.capped();
        OpeningCapperTest.assertSound(sheet, capped);
        assertEquals(List.of(), capped.findings());
        assertEquals(CapShape.TANGENT, capped.caps().get(0).shape());
        // Rims are polygons: their sides' middles lie up to 3 µm inside the sphere.
        double off = OpeningCapperTest.worst(capped, p -> Math.abs(p.length() - RADIUS));
        assertTrue(off <= 0.002 * RADIUS, "off the sphere by " + off / RADIUS + " R");
        // At the mean density of the rim it would be about 900, and as much again along it.
        assertTrue(capped.caps().get(0).triangleCount() < 2000, "triangles: " + capped.caps().get(0).triangleCount());
    }

    @ParameterizedTest
    @MethodSource("holeRadii")
    void markComesOutAndCrossesNothing(double holeRadius) {
        HoledSheet sheet = dome(holeRadius);
        for (double depth : new double[] {WIDTH / 3, -WIDTH / 3}) {
            CappedFace capped = sheet.capped(WIDTH, depth);
            OpeningCapperTest.assertSound(sheet, capped);
            assertEquals(1, capped.caps().get(0).trimRings().size());
            TriangleMesh engraved = TrimEngraving.engrave(capped, depth);
            assertEquals(0, SelfIntersections.find(engraved, 1).length);
            for (int v : capped.caps().get(0).trimRings().get(0).valley()) {
                double moved = engraved.vertex(v).length() - capped.mesh().vertex(v).length();
                assertEquals(depth, moved, 0.02 * Math.abs(depth));
            }
        }
    }

    /** Round the opening, ten degrees at a time, the cavity is as deep as asked somewhere on the mark. */
    @ParameterizedTest
    @ValueSource(doubles = {10.1, 10.4, 10.7})
    void markIsOnTheMoldAllAround(double holeRadius) {
        HoledSheet sheet = dome(holeRadius);
        Recipe recipe = Recipe.defaults().withPull(new Vector3d(0, 0, -1));
        MoldOutcome.Mold mold = (MoldOutcome.Mold) MoldPipeline.make(
                new PartFile(sheet.mesh, "stl", null, List.of()), recipe, Progress.SILENT);
        TriangleMesh solid = mold.partToMold().inverse().apply(mold.solid());
        double ground = RADIUS + mold.report().offset().signedMm();
        double[] deepest = new double[36];
        for (int t = 0; t < solid.triangleCount(); t++) {
            for (int k = 0; k < 3 && mold.regions()[t] == MoldRegion.CAP.ordinal(); k++) {
                Vector3d p = solid.corner(t, k);
                int sector = (int) Math.floor((Math.atan2(p.y, p.x) / Math.PI + 1) * 18) % 36;
                deepest[sector] = Math.max(deepest[sector], p.length() - ground);
            }
        }
        for (double depth : deepest) {
            assertEquals(recipe.flange().trimLineDepthMm(), depth, 0.03);
        }
        assertTrue(mold.report().offset().maxDeviationMm() <= recipe.inspect().toolToleranceMm());
    }

    private static HoledSheet dome(double holeRadius) {
        return HoledSheet.of(16, 1.1, List.of(HoledSheet.cutCircle(holeRadius, 1.1, holeRadius / 3)), (u, v) -> {
            double arc = Math.hypot(u, v);
            double s = arc > 0 ? RADIUS * Math.sin(arc / RADIUS) / arc : 1;
            return new double[] {s * u, s * v, RADIUS * Math.cos(arc / RADIUS)};
        });
    }
}
