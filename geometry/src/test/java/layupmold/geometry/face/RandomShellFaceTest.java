package layupmold.geometry.face;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.stream.LongStream;
import java.util.stream.Stream;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.shape.ShellRegion;
import layupmold.geometry.testparts.RandomShells;
import layupmold.geometry.testparts.ShellSpec;
import layupmold.geometry.testparts.ShellSpec.RimKind;
import layupmold.geometry.testparts.TestPart;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * Holds the face against shells whose every triangle is known by construction: nine forms, three rims, openings, ribs,
 * bosses, uneven walls, slivers, noise, far away.
 */
class RandomShellFaceTest {

    private static final int SHELLS = 120;

    /** Here some of a chamfer's rays went out through a wall that faced it, and the chamfer was kept. */
    private static final long[] CHAMFERS_KEPT_ONCE = {275, 302, 352, 365, 366};

    /** Here slivers that noise had turned passed for rounding, and the perimeter had teeth. */
    private static final long[] TEETH_ONCE = {236, 377, 383};

    /** Here both walls were seen alike from the mold, and a tenth of the inner wall was kept. */
    private static final long[] SEEN_ALIKE = {338};

    /** Here a round of six segments was cut edge to edge, now before the silhouette and now behind it. */
    private static final long[] COARSE_ROUNDS = {24, 37, 62, 73};

    static LongStream seeds() {
        return LongStream.concat(LongStream.range(0, SHELLS),
                Stream.of(CHAMFERS_KEPT_ONCE, TEETH_ONCE, SEEN_ALIKE).flatMapToLong(LongStream::of));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void keepsTheWholeOuterWallAndNothingElse(long seed) {
        assertKeepsTheOuterWallOnly(ShellSpec.random(seed).withInsideOut(false).withSpecks(0));
    }

    /** Here a piece of the inner wall is seen from the mold past an edge that leans back, or at a rib's side. */
    private static final long[] INNER_SEEN = {23, 40, 80, 98, 123, 131};

    static LongStream innerSeeds() {
        return LongStream.concat(LongStream.range(0, 16), LongStream.of(INNER_SEEN));
    }

    @ParameterizedTest
    @MethodSource("innerSeeds")
    void keepsTheWholeInnerWallAndNothingElse(long seed) {
        ShellSpec spec = ShellSpec.random(seed).withInsideOut(false).withSpecks(0);
        TestPart part = RandomShells.shell(spec);
        FaceResult face = FaceExtraction.extract(
                part.mesh(), EdgeTopology.of(part.mesh()), part.pull(), new Keep.Inner());
        double inner = part.areaOf(ShellRegion.INNER);
        assertTrue(keptArea(part, face, ShellRegion.INNER) >= 0.999 * inner, "inner wall lost");
        assertTrue(keptArea(part, face, ShellRegion.OUTER) <= 0.001 * inner, "outer wall kept");
        if (spec.rim() != RimKind.FULL_ROUND) {
            double rim = keptArea(part, face, ShellRegion.RIM_OUTER_HALF)
                    + keptArea(part, face, ShellRegion.RIM_INNER_HALF);
            assertTrue(rim <= 0.001 * inner, "rim kept: " + rim / inner);
        }
    }

    static LongStream coarseRounds() {
        return LongStream.concat(LongStream.range(0, 16), LongStream.of(COARSE_ROUNDS));
    }

    @ParameterizedTest
    @MethodSource("coarseRounds")
    void cutsRoundsOfSixSegmentsAtTheSilhouette(long seed) {
        assertKeepsTheOuterWallOnly(
                ShellSpec.random(seed).withInsideOut(false).withSpecks(0).withRim(RimKind.COARSE_ROUND));
    }

    private static void assertKeepsTheOuterWallOnly(ShellSpec spec) {
        TestPart part = RandomShells.shell(spec);
        FaceResult face = FaceExtraction.extract(
                part.mesh(), EdgeTopology.of(part.mesh()), part.pull(), new Keep.Outer());
        double outer = part.areaOf(ShellRegion.OUTER);
        assertEquals(PartKind.CLOSED_SHELL, face.kind());
        assertTrue(keptArea(part, face, ShellRegion.OUTER) >= 0.999 * outer, "outer wall lost");
        assertTrue(keptArea(part, face, ShellRegion.INNER) <= 0.001 * outer, "inner wall kept");
        assertEquals(part.openings(), face.openings().size());
        assertEquals(0, face.topology().nonManifoldCount());
        assertEquals(0, face.topology().nonManifoldVertices(face.mesh().vertexCount()).length);
        if (spec.rim() == RimKind.FULL_ROUND || spec.rim() == RimKind.COARSE_ROUND) {
            double segmentDeg = spec.rim() == RimKind.COARSE_ROUND ? 30 : 22.5;
            assertTrue(keptBeyondTheCut(part, face, segmentDeg) <= 0.001 * outer, "rim kept beyond its cut");
            assertTrue(sharpestTurnDeg(face) < 100, "the perimeter has teeth: " + sharpestTurnDeg(face));
            // The silhouette lies farther out than where the rounding begins; without zigzag its length is that of chords.
            assertEquals(chordsMm(face), face.perimeterMm(), 0.01 * face.perimeterMm());
        } else {
            double rim = keptArea(part, face, ShellRegion.RIM_OUTER_HALF)
                    + keptArea(part, face, ShellRegion.RIM_INNER_HALF);
            assertTrue(rim <= 0.001 * outer, "rim kept: " + rim / outer);
            assertEquals(part.loopLengthsMm()[0], face.perimeterMm(), 0.01 * part.loopLengthsMm()[0]);
        }
    }

    /** The far side of the rounding under a helmet's mouth looks the pull's way again: it is no piece of the face. */
    @Test
    void nothingIsMissedUnderAHelmetsMouth() {
        TestPart part = RandomShells.shell(377);
        FaceResult face = FaceExtraction.extract(
                part.mesh(), EdgeTopology.of(part.mesh()), part.pull(), new Keep.Outer());
        assertEquals(List.of(), face.findings());
        assertEquals(part.loopLengthsMm()[0], face.perimeterMm(), 0.001 * part.loopLengthsMm()[0]);
    }

    private static double keptArea(TestPart part, FaceResult face, ShellRegion region) {
        double twice = 0;
        for (int t = 0; t < face.sourceTriangle().length; t++) {
            if (part.region(face.sourceTriangle()[t]) == region) {
                twice += face.mesh().areaNormal(t).length();
            }
        }
        return twice / 2;
    }

    /** Length of the perimeter's chords over at least 6 mm each: several facets. */
    private static double chordsMm(FaceResult face) {
        int[] loop = face.perimeter();
        Vector3d first = face.mesh().vertex(face.topology().from(loop[0]));
        Vector3d last = first;
        double sum = 0;
        double walked = 0;
        for (int h : loop) {
            Vector3d from = face.mesh().vertex(face.topology().from(h));
            Vector3d to = face.mesh().vertex(face.topology().to(h));
            walked += from.distance(to);
            if (walked >= 6) {
                sum += last.distance(to);
                last = to;
                walked = 0;
            }
        }
        return sum + last.distance(first);
    }

    private static double sharpestTurnDeg(FaceResult face) {
        int[] loop = face.perimeter();
        double sharpest = 0;
        for (int i = 0; i < loop.length; i++) {
            int next = loop[(i + 1) % loop.length];
            Vector3d here = face.mesh().vertex(face.topology().to(loop[i]));
            Vector3d along = new Vector3d(here).sub(face.mesh().vertex(face.topology().from(loop[i])));
            Vector3d on = face.mesh().vertex(face.topology().to(next)).sub(here);
            sharpest = Math.max(sharpest, Math.toDegrees(along.angle(on)));
        }
        return sharpest;
    }

    /**
     * Area of pieces of a full round's triangles that look back along the pull by more than one segment of the round:
     * around the perimeter all of it lies beyond the silhouette.
     */
    private static double keptBeyondTheCut(TestPart part, FaceResult face, double segmentDeg) {
        Vector3d pull = part.pull();
        double twice = 0;
        for (int t = 0; t < face.sourceTriangle().length; t++) {
            int source = face.sourceTriangle()[t];
            Vector3d normal = face.mesh().areaNormal(t);
            if (part.loopOfTriangle()[source] == 0
                    && normal.dot(pull) > Math.sin(Math.toRadians(segmentDeg)) * normal.length()) {
                twice += normal.length();
            }
        }
        return twice / 2;
    }
}
