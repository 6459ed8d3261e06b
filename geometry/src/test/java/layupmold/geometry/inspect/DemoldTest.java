package layupmold.geometry.inspect;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.concurrent.ForkJoinPool;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.InspectSpec;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.shapes.Pick;
import layupmold.geometry.shapes.Revolved;
import layupmold.geometry.shapes.Shapes;
import org.joml.Matrix4d;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

class DemoldTest {

    private static final double R = 40;

    /** A round block with a spherical cavity of radius 40 around (0, 0, 50), open at {@code rise} above its equator. */
    private static TriangleMesh bowl(double rise, int segments) {
        double openDeg = Math.toDegrees(Math.asin(rise / R));
        Revolved profile = new Revolved().to(0, 0).to(60, 0).to(60, 50 + rise);
        for (int i = 0; i < 12 && rise > 0; i++) {
            double a = Math.toRadians(openDeg * (12 - i) / 12);
            profile.to(R * Math.cos(a), 50 + R * Math.sin(a));
        }
        return profile.arc(0, 50, R, 0, -90, 90).solid(segments);
    }

    private static MeasuredSolid bowlSolid(double rise, int segments) {
        TriangleMesh mesh = bowl(rise, segments);
        return MeasuredSolid.of(mesh, Pick.regions(mesh, MoldRegion.TOOL, c -> c.distance(0, 0, 50) < R + 1e-9));
    }

    private static DemoldFigures measure(MeasuredSolid solid) {
        return Demold.measure(solid, InspectSpec.defaults(), Tool.FEMALE).figures();
    }

    @Test
    void aConicalWallHasTheDraftOfItsCone() {
        for (double draft : new double[] {0.5, 3, 12}) {
            double top = 30 + 30 * Math.tan(Math.toRadians(draft));
            TriangleMesh mesh = new Revolved().to(0, 0).to(50, 0).to(50, 40).to(top, 40).to(30, 10).to(0, 10)
                    .solid(360);
            byte[] regions = Pick.regions(mesh, MoldRegion.WALL,
                    c -> Math.hypot(c.x, c.y) < 49 && c.z > 11 && c.z < 39);
            DemoldFigures figures = measure(MeasuredSolid.of(mesh, regions));
            DraftFigures wall = figures.drafts().get(2);
            assertEquals(MoldRegion.WALL, wall.region());
            assertEquals(draft, wall.leastDeg(), 2e-3);
            // Lateral area of a frustum: π (r + R) s.
            double area = Math.PI * (30 + top) * 30 / Math.cos(Math.toRadians(draft));
            assertEquals(area, wall.areaMm2(), 1e-3 * area);
            assertEquals(draft < 1 ? wall.areaMm2() : 0, wall.tightMm2(), 1e-9);
            assertEquals(Verdict.RELEASES, figures.verdict());
        }
    }

    @Test
    void aHemisphereReleases() {
        DemoldFigures figures = measure(bowlSolid(0, 240));
        assertEquals(Verdict.RELEASES, figures.verdict());
        assertEquals(0, figures.undercutMm2());
        assertNull(figures.otherPull());
        assertNull(figures.split());
        // The ring of facets nearest the equator leans by half its height: 0.5°.
        assertEquals(0.5, figures.leastDraft().leastDeg(), 0.01);
    }

    /** A groove around a pin hole, as deep as it is high: it takes about 2 π r (1 + √2) of its depth. */
    @Test
    void anUndercutTooSmallToPrintLocksNothing() {
        for (double depth : new double[] {0.012, 0.1}) {
            double r = 0.3;
            TriangleMesh mesh = new Revolved().to(0, 0).to(10, 0).to(10, 10).to(r, 10).to(r, 8).to(r + depth, 8)
                    .to(r, 8 - depth).to(r, 5).to(0, 5).solid(64);
            DemoldFigures figures = measure(
                    MeasuredSolid.of(mesh, Pick.regions(mesh, MoldRegion.TOOL, c -> Math.hypot(c.x, c.y) < 0.5)));
            double area = 2 * Math.PI * (r + depth / 2) * depth * (1 + Math.sqrt(2));
            assertTrue(figures.undercutMm2() > 0.5 * area, "undercut " + figures.undercutMm2());
            assertEquals(area < 0.1 ? 0 : 1, figures.lockedRegions().size());
        }
    }

    @Test
    void aSpherePastItsEquatorIsLockedByItsClosedForm() {
        double rise = 10;
        DemoldFigures figures = measure(bowlSolid(rise, 360));
        // Zone of a sphere: 2 π R h above the equator faces away; its mirror image below lies in its shadow.
        double zone = 2 * Math.PI * R * rise;
        assertEquals(zone, figures.facingAwayMm2(), 0.01 * zone);
        assertEquals(zone, figures.shadowedMm2(), 0.02 * zone);
        assertEquals(1, figures.lockedRegions().size());
        LockedRegion region = figures.lockedRegions().get(0);
        assertEquals(2 * zone, region.areaMm2(), 0.02 * zone);
        assertEquals(R - Math.sqrt(R * R - rise * rise), region.depthMm(), 0.02);
        assertEquals(50, region.at().z(), 1.5);
        assertEquals(Verdict.LOCKED, figures.verdict());
        // Halves of a round cavity part sideways along any plane through the axis.
        assertEquals(1, figures.split().freedShare(), 0.01);
        assertTrue(Math.hypot(figures.split().through().x(), figures.split().through().y()) < 5, "through " + figures.split().through());
    }

    @Test
    void whatSpringsFreeIsTheRecipesFigure() {
        MeasuredSolid solid = bowlSolid(10, 120);
        assertEquals(Verdict.LOCKED,
                Demold.measure(solid, InspectSpec.defaults().withFlexDepth(1.2), Tool.FEMALE).figures().verdict());
        assertEquals(Verdict.RELEASES_WITH_FLEX,
                Demold.measure(solid, InspectSpec.defaults().withFlexDepth(1.4), Tool.FEMALE).figures().verdict());
    }

    @Test
    void aLedgeLocksByItsWidth() {
        TriangleMesh mesh = new Revolved().to(0, 0).to(50, 0).to(50, 40).to(29.6, 40).to(29.6, 38).to(30, 38)
                .to(30, 10).to(0, 10).solid(240);
        DemoldFigures figures = measure(MeasuredSolid.of(mesh,
                Pick.regions(mesh, MoldRegion.TOOL, c -> Math.hypot(c.x, c.y) < 30.1 && c.z > 1 && c.z < 39.5)));
        double ring = Math.PI * (900 - 29.6 * 29.6);
        assertEquals(ring, figures.facingAwayMm2(), 0.01 * ring);
        // In its shadow: the upright wall below it and a ring of the floor.
        double below = 2 * Math.PI * 30 * 28 + ring;
        assertEquals(below, figures.shadowedMm2(), 0.01 * below);
        assertEquals(0.4, figures.lockedRegions().get(0).depthMm(), 0.01);
        assertEquals(Verdict.RELEASES_WITH_FLEX, figures.verdict());
    }

    @Test
    void turningAboutThePullAndSplittingTrianglesChangeLittle() {
        DemoldFigures plain = measure(bowlSolid(10, 180));
        TriangleMesh mesh = new RigidTransform(new Matrix4d().rotateZ(1.1).translate(7, -3, 0)).apply(bowl(10, 180));
        DemoldFigures turned = measure(MeasuredSolid.of(mesh, bowlSolid(10, 180).regions()));
        assertEquals(plain.undercutMm2(), turned.undercutMm2(), 0.005 * plain.undercutMm2());
        assertEquals(plain.lockedRegions().get(0).depthMm(), turned.lockedRegions().get(0).depthMm(), 5e-3);
        assertEquals(plain.leastDraft().leastDeg(), turned.leastDraft().leastDeg(), 1e-6);
        DemoldFigures finer = measure(bowlSolid(10, 400));
        assertEquals(plain.undercutMm2(), finer.undercutMm2(), 0.01 * plain.undercutMm2());
        assertEquals(plain.lockedRegions().get(0).depthMm(), finer.lockedRegions().get(0).depthMm(), 0.01);
    }

    /** The surface stays the same to the last bit of a halved edge, so draft and area stay too; samples move. */
    @Test
    void fourTrianglesForOneChangeNothingButTheSamples() {
        MeasuredSolid solid = bowlSolid(10, 120);
        byte[] regions = new byte[4 * solid.regions().length];
        for (int t = 0; t < regions.length; t++) {
            regions[t] = solid.regions()[t / 4];
        }
        DemoldFigures plain = measure(solid);
        DemoldFigures split = measure(MeasuredSolid.of(Shapes.splitInFour(solid.mesh()), regions));
        assertEquals(plain.facingAwayMm2(), split.facingAwayMm2(), 1e-9 * plain.facingAwayMm2());
        assertEquals(plain.shadowedMm2(), split.shadowedMm2(), 0.01 * plain.shadowedMm2());
        assertEquals(plain.leastDraft().leastDeg(), split.leastDraft().leastDeg(), 1e-9);
        for (int bin = 0; bin < 72; bin++) {
            double area = plain.leastDraft().histogram().areaMm2().get(bin);
            assertEquals(area, split.leastDraft().histogram().areaMm2().get(bin), 1e-6);
        }
        assertEquals(1, split.lockedRegions().size());
        assertEquals(plain.lockedRegions().get(0).depthMm(), split.lockedRegions().get(0).depthMm(), 5e-3);
    }

    @Test
    void aTiltedHemisphereIsBetterPulledAlongItsAxis() {
        double tilt = Math.toRadians(25);
        MeasuredSolid upright = bowlSolid(0, 180);
        TriangleMesh mesh = new RigidTransform(new Matrix4d().rotateY(tilt)).apply(upright.mesh());
        DemoldFigures figures = measure(MeasuredSolid.of(mesh, upright.regions()));
        // A lune of angle φ has area 2 R² φ; it faces away, and its mirror image lies in its shadow.
        double undercut = 4 * R * R * tilt;
        assertEquals(undercut, figures.undercutMm2(), 0.02 * undercut);
        OtherPull other = figures.otherPull();
        assertEquals(undercut, other.presentMm2(), 0.05 * undercut);
        double off = Math.toDegrees(other.direction().angle(new Vector3d(Math.sin(tilt), 0, Math.cos(tilt))));
        assertTrue(off < 1.5, "off the axis by " + off);
        assertTrue(other.gainMm2() > 0.9 * undercut, "gain " + other.gainMm2());
    }

    @Test
    void theLockedMapMarksTheRegionsTriangles() {
        MeasuredSolid solid = bowlSolid(10, 90);
        int[] map = Demold.measure(solid, InspectSpec.defaults(), Tool.FEMALE).lockedMap();
        for (int t = 0; t < map.length; t++) {
            boolean undercut = Math.hypot(solid.mesh().centroid(t).x, solid.mesh().centroid(t).y) > 39
                    && Math.abs(solid.mesh().centroid(t).z - 50) < 8 && solid.isIn(t, MoldRegion.TOOL);
            if (undercut) {
                assertEquals(0, map[t]);
            }
        }
    }

    @Test
    void theFiguresDoNotDependOnTheNumberOfThreads() throws Exception {
        MeasuredSolid solid = bowlSolid(10, 60);
        DemoldFigures[] figures = new DemoldFigures[2];
        for (int i = 0; i < 2; i++) {
            ForkJoinPool pool = new ForkJoinPool(i == 0 ? 1 : 5);
            figures[i] = pool.submit(() -> measure(solid)).get();
            pool.shutdown();
        }
        assertEquals(figures[0], figures[1]);
    }
}
