package layupmold.geometry.opening;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class TrimRingTest {

    private static final HoledSheet.Surface FLAT = (u, v) -> new double[] {u, v, 0};

    @ParameterizedTest
    @CsvSource({"64, 0.5", "64, 1", "64, 4", "400, 1", "12, 1"})
    void ringRunsAtItsWidthAlongACircle(int corners, double width) {
        HoledSheet sheet = HoledSheet.of(20, 1.5, List.of(HoledSheet.circle(0, 0, 10, corners)), FLAT);
        CappedFace capped = sheet.capped(width, width / 3);
        OpeningCapperTest.assertSound(sheet, capped);
        TrimRing ring = capped.caps().get(0).trimRings().get(0);
        double sagitta = 10 * (1 - Math.cos(Math.PI / corners));
        for (int v : ring.inner()) {
            assertEquals(10 - width, radius(capped, v), 0.11 * width + sagitta);
        }
        for (int v : ring.valley()) {
            assertEquals(10 - width / 2, radius(capped, v), 0.11 * width + sagitta);
            assertEquals(1, capped.trimProfile()[v], 0);
        }
        assertLoop(capped.mesh(), ring.inner());
        assertLoop(capped.mesh(), ring.valley());
    }

    @Test
    void engravingCutsAGrooveOfTheRightVolume() {
        HoledSheet sheet = HoledSheet.of(20, 1, List.of(HoledSheet.circle(0, 0, 10, 200)), FLAT);
        CappedFace capped = sheet.capped(1, 0.3);
        double depth = 0.3;
        TriangleMesh engraved = TrimEngraving.engrave(capped, depth);
        // The plane z = 0 adds nothing to the volume under the mesh: what remains is the groove's.
        double volume = engraved.volume() - capped.mesh().volume();
        // Pappus: a triangle of width 1 and depth 0.3 turned about the axis at its centroid's radius, 9.5.
        assertEquals(0.5 * 1 * depth * 2 * Math.PI * 9.5, volume, 0.05 * volume);
        assertEquals(depth, engraved.bounds()[5], 1e-12);
        assertEquals(0, engraved.bounds()[2], 1e-12);
        assertArrayEquals(sheet.mesh.xyz(), Arrays.copyOf(engraved.xyz(), sheet.mesh.xyz().length));
    }

    @Test
    void engravedDomeCrossesNothing() {
        HoledSheet sheet = HoledSheet.of(35, 1, List.of(HoledSheet.flower(18, 5, 0.35, 300)),
                (u, v) -> new double[] {u, v, -(u * u + v * v) / 120});
        for (double depth : new double[] {0.3, -0.3}) {
            TriangleMesh engraved = TrimEngraving.engrave(sheet.capped(0.9, depth), depth);
            assertEquals(0, SelfIntersections.find(engraved, TriangleBvh.of(engraved), 1).length);
        }
    }

    @Test
    void ringFollowsAConcaveLoopOnACurvedFace() {
        HoledSheet sheet = HoledSheet.of(35, 1, List.of(HoledSheet.flower(18, 5, 0.35, 300)),
                (u, v) -> new double[] {u, v, -(u * u + v * v) / 120});
        CappedFace capped = sheet.capped(1, 0.3);
        OpeningCapperTest.assertSound(sheet, capped);
        TrimRing ring = capped.caps().get(0).trimRings().get(0);
        assertLoop(capped.mesh(), ring.inner());
        for (int v : ring.inner()) {
            double nearest = Arrays.stream(capped.caps().get(0).trimLoop())
                    .mapToDouble(u -> Triangles.distance(capped.mesh().xyz(), u, v)).min().orElseThrow();
            assertEquals(1, nearest, 0.2);
        }
    }

    @Test
    void ringTurnsLikeTheTrimLoop() {
        HoledSheet sheet = HoledSheet.of(20, 1, List.of(HoledSheet.circle(0, 0, 10, 80)), FLAT);
        CappedFace capped = sheet.capped(1, 0.3);
        Cap cap = capped.caps().get(0);
        assertTrue(turn(capped.mesh(), cap.trimLoop()) < 0, "with the face on its left the edge of a hole runs clockwise");
        assertTrue(turn(capped.mesh(), cap.trimRings().get(0).inner()) < 0);
        assertTrue(turn(capped.mesh(), cap.trimRings().get(0).valley()) < 0);
    }

    /** A cap has few vertices in its middle where the openings are small: none of these lies beyond the ring. */
    @ParameterizedTest
    @CsvSource({"0.72, 0.6", "0.6, 0.5", "0.5, 0.4"})
    void ringIsFoundInSmallDiscsWithRoomForIt(double radius, double width) {
        HoledSheet sheet = HoledSheet.of(25, 0.8, List.of(HoledSheet.circle(0, 0, radius, 80)), FLAT);
        CappedFace capped = sheet.capped(width, -width / 4);
        OpeningCapperTest.assertSound(sheet, capped);
        TrimRing ring = capped.caps().get(0).trimRings().get(0);
        assertEquals(width, ring.widthMm(), 1e-12);
        for (int v : ring.inner()) {
            assertEquals(radius - width, radius(capped, v), 0.11 * width);
        }
    }

    /** Discs and slits with room for the share of the mark, but not for a quarter of it more. */
    @ParameterizedTest
    @CsvSource({"1, 1, 1", "0.72, 0.72, 0.75", "0.5, 0.5, 0.5", "0.78, 21, 0.75", "0.5, 21, 0.5"})
    void markIsNarrowedWhereThereIsNoRoomForAWholeOne(double halfWidth, double halfLength, double share) {
        HoledSheet sheet = HoledSheet.of(25, 0.8, List.of(HoledSheet.ellipse(0, 0, halfLength, halfWidth, 80)),
                (u, v) -> new double[] {u, v, -(u * u + v * v) / 120});
        double depth = -0.2;
        CappedFace capped = sheet.capped(0.8, depth);
        OpeningCapperTest.assertSound(sheet, capped);
        TrimRing ring = capped.caps().get(0).trimRings().get(0);
        assertEquals(share * 0.8, ring.widthMm(), 1e-12);
        for (int v : ring.valley()) {
            assertEquals(share, capped.trimProfile()[v], 0);
        }
        TriangleMesh engraved = TrimEngraving.engrave(capped, depth);
        assertEquals(0, SelfIntersections.find(engraved, 1).length);
        assertEquals(share < 1 ? List.of("trim-mark-narrowed") : List.of(),
                capped.findings().stream().map(Finding::code).toList());
        capped.findings().forEach(finding -> assertEquals(share, finding.figure(), 0));
    }

    @Test
    void waistNarrowerThanTwoNarrowRingsIsReported() {
        // A dumb-bell: two discs joined by a passage 1.5 mm wide.
        double[] outline = new double[2 * 120];
        for (int i = 0; i < 120; i++) {
            double angle = 2 * Math.PI * i / 120;
            outline[2 * i] = 10 * Math.cos(angle);
            outline[2 * i + 1] = Math.sin(angle) * (0.75 + 5 * Math.pow(Math.cos(angle), 4));
        }
        HoledSheet sheet = HoledSheet.of(20, 1, List.of(outline), FLAT);
        CappedFace capped = sheet.capped(1.6, 0.3);
        OpeningCapperTest.assertSound(sheet, capped);
        assertEquals("trim-mark-does-not-fit", capped.findings().get(0).code());
        assertTrue(capped.caps().get(0).trimRings().isEmpty());
        assertEquals(1, sheet.capped(0.3, 0.1).caps().get(0).trimRings().size());
    }

    /** A funnel under the opening, whose wall falls 30° below the cap: a groove of 34° runs into it. */
    @ParameterizedTest
    @CsvSource({"0.3, 1", "-0.3, 0", "-0.2, 1"})
    void markIsHeldAgainstTheFaceOnItsOwnSideAndAtItsOwnDepth(double depth, int rings) {
        HoledSheet funnel = HoledSheet.of(14, 1, List.of(HoledSheet.circle(0, 0, 10, 80)), (u, v) -> {
            double beyond = Math.hypot(u, v) - 10;
            double along = Math.min(beyond, 4);
            double share = (10 - along * Math.cos(Math.PI / 6)) / Math.hypot(u, v);
            // A pipe below makes the outer border the one that reaches farthest.
            return new double[] {share * u, share * v, -along * Math.sin(Math.PI / 6) - 10 * (beyond - along)};
        });
        CappedFace capped = funnel.capped(0.9, depth);
        assertEquals(rings, capped.caps().get(0).trimRings().size());
        TriangleMesh engraved = TrimEngraving.engrave(capped, depth);
        assertEquals(0, SelfIntersections.find(engraved, 1).length);
    }

    private static double radius(CappedFace capped, int v) {
        Vector3d p = capped.mesh().vertex(v);
        return Math.hypot(p.x, p.y);
    }

    private static double turn(TriangleMesh mesh, int[] loop) {
        double twice = 0;
        for (int i = 0; i < loop.length; i++) {
            Vector3d a = mesh.vertex(loop[i]);
            Vector3d b = mesh.vertex(loop[(i + 1) % loop.length]);
            twice += a.x * b.y - b.x * a.y;
        }
        return twice;
    }

    /** Each pair of neighbours is an edge of the mesh, and no vertex comes twice. */
    private static void assertLoop(TriangleMesh mesh, int[] loop) {
        EdgeTopology topology = EdgeTopology.of(mesh);
        assertEquals(loop.length, Arrays.stream(loop).distinct().count());
        Set<Long> edges = new HashSet<>();
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            edges.add((long) topology.from(h) << 32 | topology.to(h));
        }
        for (int i = 0; i < loop.length; i++) {
            assertTrue(edges.contains((long) loop[i] << 32 | loop[(i + 1) % loop.length]));
        }
    }
}
