package layupmold.geometry.face;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.Random;
import layupmold.geometry.face.RevolvedShell.Rim;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.shape.ShellRegion;
import layupmold.geometry.shapes.Revolved;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.testparts.ClosedForms;
import layupmold.geometry.testparts.GroovedDisc;
import layupmold.geometry.testparts.TestPart;
import org.joml.Matrix4d;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FaceExtractionTest {

    private static final Vector3d UP = new Vector3d(0, 0, 1);

    /** The kept face of a bowl with a crisp rim is its outer wall exactly; its perimeter the crease exactly. */
    @ParameterizedTest
    @CsvSource({"40, SHARP", "80, SHARP", "90, SHARP", "115, SHARP", "40, CHAMFERED", "80, CHAMFERED", "90, CHAMFERED",
        "115, CHAMFERED"})
    void keepsTheOuterWallOfASphereCapUpToItsCrease(double openDeg, Rim rim) {
        RevolvedShell shell = RevolvedShell.sphere(100, 3, openDeg, rim, 160, 60);
        FaceResult face = extract(shell, UP);
        assertEquals(PartKind.CLOSED_SHELL, face.kind());
        assertEquals(shell.area(RevolvedShell.OUTER), face.areaMm2(), 1e-6);
        assertEquals(0, area(face, shell, RevolvedShell.RIM_OUTSIDE, RevolvedShell.RIM_INSIDE, RevolvedShell.INNER));
        double chord = 160 * 2 * Math.sin(Math.PI / 160);
        assertEquals(chord * 100 * Math.sin(Math.toRadians(openDeg)), face.perimeterMm(), 1e-6);
        assertTrue(face.openings().isEmpty());
        assertTrue(face.findings().isEmpty(), face.findings().toString());
    }

    /** A groove's floor looks through to the inner wall as the face does, whatever its sides do: they hold together. */
    @ParameterizedTest
    @CsvSource({"3, 0.5", "3, 1", "3, 1.5", "2, 0.8", "2, 1"})
    void keepsWhatLiesAcrossASquareGroove(double wall, double depth) {
        TestPart plate = ClosedForms.channelPlate(100, 60, wall, 1.2, depth, 2);
        EdgeTopology topology = EdgeTopology.of(plate.mesh());
        for (Keep keep : List.of(new Keep.Outer(), new Keep.Seed(-20, 5, 0))) {
            FaceResult face = FaceExtraction.extract(plate.mesh(), topology, plate.pull(), keep);
            assertEquals(plate.areaOf(ShellRegion.OUTER), face.areaMm2(), 1e-6, keep.toString());
            assertEquals(plate.loopLengthsMm()[0], face.perimeterMm(), 1e-6);
        }
    }

    /** A groove's sides are flat across the round's flats, so they do not round themselves; they end where it does. */
    @ParameterizedTest
    @CsvSource({"ROUND, 30", "ROUND, 50", "ROUND, 80", "COARSE_ROUND, 30", "COARSE_ROUND, 50", "COARSE_ROUND, 80"})
    void cutsTheSidesOfAGrooveWhereTheRoundIsCut(Rim rim, double openDeg) {
        int around = 1440;
        RevolvedShell shell = RevolvedShell.sphere(80, 4, openDeg, rim, around, 30)
                .withMeridians(RevolvedShell.sphere(78.5, 2.5, openDeg, rim, around, 30), around, 360, 364, 20);
        FaceResult face = extract(shell, UP);
        double climb = climb(face, 0);
        // The groove's round ends half its depth farther in, along the wall's normal, and flats are a fifth of the wall.
        double most = 0.75 * Math.cos(Math.toRadians(openDeg)) + 0.25;
        assertTrue(climb < most, "the perimeter climbs by " + climb + " of " + most);
    }

    /**
     * The floor of a groove that runs out over a round turns as the round does, between two sharp edges: it ends where
     * it turns away itself, at 120 degrees, and the sides with it.
     */
    @ParameterizedTest
    @CsvSource({"true, 12, 4, 1, 1", "true, 12, 4, 0.8, 1", "true, 16, 4, 1, 2", "true, 6, 4, 1, 1", "true, 12, 3, 0.7, 1",
        "false, 12, 4, 1, 1", "false, 12, 4, 1, 2", "false, 6, 4, 1, 1", "false, 16, 4, 1, 2"})
    void cutsTheFloorOfAGrooveThatRunsOutOverARound(
            boolean upright, int flats, double wall, double depth, int halfWidthDeg) {
        TestPart disc = new GroovedDisc(50, wall, depth, flats, upright, halfWidthDeg, 30, 120).part();
        FaceResult face = FaceExtraction.extract(
                disc.mesh(), EdgeTopology.of(disc.mesh()), disc.pull(), new Keep.Outer());
        double r = wall / 2 - depth / 2;
        double down = r * Math.cos(Math.toRadians(60));
        double in = wall / 2 - r * Math.sin(Math.toRadians(60));
        double climb = climb(face, 0);
        assertTrue(climb < down + 0.3, "the perimeter climbs by " + climb + " of " + down);
        double ring = disc.loopLengthsMm()[0];
        // Close to it or, where it zigzags over a round's few flats, evened out.
        double length = face.perimeterMm();
        assertTrue(length > 0.99 * ring && length < ring + 4 * Math.hypot(down, in) + 0.01 * ring, length + " of " + ring);
    }

    /** Marching cubes leave no sharp rim, but facets that waver about it: the face ends along the middle. */
    @ParameterizedTest
    @CsvSource({"60, 400", "80, 400", "80, 700"})
    void evensOutARimThatZigzags(double openDeg, int around) {
        RevolvedShell shell = RevolvedShell.sphere(50, 3, openDeg, Rim.SHARP, around, 60);
        double[] xyz = shell.mesh().xyz().clone();
        double step = Math.toRadians(openDeg) / 60;
        // The last ring but the rim's own is moved half a step to and fro, and the rim's with it.
        for (int j = 0; j < around; j++) {
            double angle = Math.toRadians(openDeg) + (j % 2 == 0 ? -0.2 : 0.2) * step;
            double turn = 2 * Math.PI * j / around;
            int v = 3 * (2 + 59 * around + j);
            xyz[v] = 50 * Math.sin(angle) * Math.cos(turn);
            xyz[v + 1] = 50 * Math.sin(angle) * Math.sin(turn);
            xyz[v + 2] = -50 * Math.cos(angle);
        }
        TriangleMesh mesh = new TriangleMesh(xyz, shell.mesh().triangles());
        FaceResult face = FaceExtraction.extract(mesh, EdgeTopology.of(mesh), UP, new Keep.Outer());
        double ring = 2 * Math.PI * 50 * Math.sin(Math.toRadians(openDeg));
        assertEquals(ring, face.perimeterMm(), 0.01 * ring);
        double area = 2 * Math.PI * 50 * 50 * (1 - Math.cos(Math.toRadians(openDeg)));
        assertEquals(area, face.areaMm2(), 0.005 * area);
    }

    /** Before a round is cut, the labels end anywhere on it. */
    @ParameterizedTest
    @CsvSource({"30, 200", "30, 400", "60, 200", "60, 400"})
    void aFullRoundIsNoSmoothWall(double openDeg, int around) {
        FaceResult face = extract(RevolvedShell.sphere(80, 4, openDeg, Rim.ROUND, around, 60), UP);
        assertTrue(face.findings().isEmpty(), face.findings().toString());
    }

    /** The collar's sides are seen from the mold's side below the rim, but stand on the inner wall. */
    @Test
    void aCollarThatReachesPastTheRimIsNoPieceOfTheFace() {
        TriangleMesh pan = new Revolved().to(0, 0).to(50, 0).to(55, 30).to(52, 30).to(47.5, 3)
                .to(23, 3).to(23, 20).to(23, 35).to(23, 50).to(20, 50).to(20, 35).to(20, 20).to(20, 3).to(0, 3)
                .solid(96);
        FaceResult face = FaceExtraction.extract(pan, EdgeTopology.of(pan), UP, new Keep.Outer());
        double chord = 2 * Math.sin(Math.PI / 96);
        assertEquals(96 * chord * 55, face.perimeterMm(), 1e-6);
        assertTrue(face.findings().isEmpty(), face.findings().toString());
    }

    /** On a full round the face ends where the normal is square to the pull: radius known in closed form. */
    @ParameterizedTest
    @CsvSource({"30", "45", "60", "75", "85"})
    void cutsAFullRoundAtTheSilhouette(double openDeg) {
        RevolvedShell shell = RevolvedShell.sphere(100, 4, openDeg, Rim.ROUND, 200, 60);
        FaceResult face = extract(shell, UP);
        // The round's centre circle lies on the middle surface; the silhouette is its outermost point.
        double radius = 98 * Math.sin(Math.toRadians(openDeg)) + 2;
        assertEquals(2 * Math.PI * radius, face.perimeterMm(), 0.002 * 2 * Math.PI * radius);
        assertEquals(shell.area(RevolvedShell.OUTER), area(face, shell, RevolvedShell.OUTER), 1e-6);
        assertEquals(0, area(face, shell, RevolvedShell.INNER));
    }

    /** The flats of a groove that runs out over a coarse round turn as fast as the round's, but are too narrow to follow. */
    @ParameterizedTest
    @CsvSource({"30", "40", "50"})
    void cutsAGrooveThatRunsOutOverACoarseRoundLikeTheRound(double openDeg) {
        int around = 720;
        double slope = 0.17;
        RevolvedShell shell = RevolvedShell.sphere(80, 4, openDeg, Rim.COARSE_ROUND, around, 30)
                .withMeridians(RevolvedShell.sphere(79, 3, openDeg, Rim.COARSE_ROUND, around, 30), around, 180, 181, 30)
                .moved(new Matrix4d().m02(slope));
        FaceResult face = extract(shell, UP);
        double climb = climb(face, slope);
        // One flat of the round is half a millimetre high there; a perimeter that leaves the silhouette goes over several.
        assertTrue(climb < 1, "the perimeter climbs by " + climb);
    }

    /** Upright and overhanging walls are kept whole: a full round is cut where it begins. */
    @ParameterizedTest
    @CsvSource({"0", "-3", "-8", "0.5"})
    void keepsSteepWallsWhole(double draftDeg) {
        RevolvedShell shell = RevolvedShell.pan(60, draftDeg, 50, 3, Rim.ROUND, 160, 40);
        FaceResult face = extract(shell, UP);
        double wall = shell.area(RevolvedShell.OUTER);
        assertEquals(wall, area(face, shell, RevolvedShell.OUTER), 1e-6);
        assertTrue(face.areaMm2() - wall < 1e-3 * wall, "area beyond the wall: " + (face.areaMm2() - wall));
    }

    /** A wall of 1 to 8 mm: where it is thin its rim strip is wide beside it, and is none of the face for that. */
    @Test
    void leavesTheRimStripOfAnUnevenWall() {
        TriangleMesh plate = Shapes.sheet(80, 54);
        TriangleMesh outer = Shapes.bent(plate, p -> curved(p, 0));
        TriangleMesh inner = Shapes.bent(plate,
                p -> curved(p, 4.5 + 3.5 * Math.sin(1.4 * (p.x - 40) / 9) * Math.cos((p.y - 40) / 11)));
        TriangleMesh shell = Shapes.shell(outer, inner);
        FaceResult face = FaceExtraction.extract(
                shell, EdgeTopology.of(shell), new Vector3d(0, 0, -1), new Keep.Outer());
        assertEquals(outer.area(), face.areaMm2(), 1e-6);
        assertTrue(face.findings().isEmpty(), face.findings().toString());
    }

    /** A point of a plate bent around the x axis to a radius of 40 mm, so far below. */
    private static Vector3d curved(Vector3d p, double below) {
        double angle = (p.y - 40) / 40;
        return p.set(1.4 * (p.x - 40), (40 - below) * Math.sin(angle), (40 - below) * Math.cos(angle));
    }

    /** Moving the part far away and turning it changes nothing but coordinates. */
    @Test
    void doesNotDependOnWhereThePartLies() {
        Random random = new Random(17);
        for (Rim rim : Rim.values()) {
            RevolvedShell shell = RevolvedShell.sphere(80, 2.5, 70, rim, 120, 40);
            FaceResult still = extract(shell, UP);
            for (int i = 0; i < 3; i++) {
                Matrix4d m = new Matrix4d().translate(4000, -9000, 7000)
                        .rotate(6 * random.nextDouble(), new Vector3d(random.nextDouble(), 1, random.nextDouble())
                                .normalize());
                RevolvedShell moved = shell.moved(m);
                FaceResult face = extract(moved, m.transformDirection(UP, new Vector3d()));
                assertEquals(still.areaMm2(), face.areaMm2(), 1e-3 * still.areaMm2());
                assertEquals(still.perimeterMm(), face.perimeterMm(), 1e-3 * still.perimeterMm());
            }
        }
    }

    @Test
    void keepsTheInnerWallWhenAsked() {
        RevolvedShell shell = RevolvedShell.sphere(100, 3, 80, Rim.SHARP, 160, 60);
        EdgeTopology topology = EdgeTopology.of(shell.mesh());
        FaceResult inner = FaceExtraction.extract(shell.mesh(), topology, UP, new Keep.Inner());
        assertEquals(shell.area(RevolvedShell.INNER), inner.areaMm2(), 1e-6);
        FaceResult seeded = FaceExtraction.extract(shell.mesh(), topology, UP, new Keep.Seed(10, 0, -96.4));
        assertArrayEquals(inner.sourceTriangle(), seeded.sourceTriangle());
        FaceResult outer = FaceExtraction.extract(shell.mesh(), topology, UP, new Keep.Seed(10, 0, -99.6));
        assertEquals(shell.area(RevolvedShell.OUTER), outer.areaMm2(), 1e-6);
        assertTrue(outer.findings().isEmpty(), outer.findings().toString());
        FaceResult far = FaceExtraction.extract(shell.mesh(), topology, UP, new Keep.Seed(10, 0, -1e6));
        assertEquals("seed-off-part", far.findings().get(0).code());
    }

    /** A cube loses the one side that looks along the pull. */
    @Test
    void removesTheBackOfASolid() {
        TriangleMesh cube = cube(40);
        FaceResult face = FaceExtraction.extract(cube, EdgeTopology.of(cube), UP, new Keep.Outer());
        assertEquals(PartKind.SOLID, face.kind());
        assertEquals(5 * 1600, face.areaMm2(), 1e-9);
        assertEquals(1600, face.removedAreaMm2(), 1e-9);
        assertEquals(160, face.perimeterMm(), 1e-9);
    }

    @Test
    void cutsASmoothSolidAtItsSilhouette() {
        TriangleMesh ball = RevolvedShell.ball(50, 96, 61).mesh();
        FaceResult face = FaceExtraction.extract(ball, EdgeTopology.of(ball), UP, new Keep.Outer());
        assertEquals(PartKind.SOLID, face.kind());
        assertEquals(2 * Math.PI * 50 * 50, face.areaMm2(), 0.01 * 2 * Math.PI * 50 * 50);
        assertEquals(2 * Math.PI * 50, face.perimeterMm(), 0.005 * 2 * Math.PI * 50);
    }

    @Test
    void takesAnOpenSheetWholeAndTurnsItOutward() {
        RevolvedShell shell = RevolvedShell.sphere(100, 3, 80, Rim.SHARP, 96, 30);
        FaceResult sheet = extract(shell, UP);
        TriangleMesh insideOut = sheet.mesh().flipped();
        FaceResult face = FaceExtraction.extract(insideOut, EdgeTopology.of(insideOut), UP, new Keep.Outer());
        assertEquals(PartKind.OPEN_SHEET, face.kind());
        assertEquals(sheet.areaMm2(), face.areaMm2(), 1e-9);
        assertArrayEquals(sheet.mesh().triangles(), face.mesh().triangles());
        assertEquals("sheet-turned", face.findings().get(0).code());
    }

    @Test
    void refusesASurfaceWithoutAnEdge() {
        TriangleMesh plate = cube(1);
        double[] thin = plate.xyz().clone();
        for (int i = 0; i < thin.length; i += 3) {
            thin[i] *= 100;
            thin[i + 1] *= 100;
        }
        TriangleMesh sheet = new TriangleMesh(thin, plate.triangles());
        Vector3d alongTheSheet = new Vector3d(1, 0, 0);
        assertThrows(Rejection.class,
                () -> FaceExtraction.extract(sheet, EdgeTopology.of(sheet), alongTheSheet, new Keep.Outer()));
    }

    /** Between the highest and the lowest point of the perimeter, over a plane of that slope along x. */
    private static double climb(FaceResult face, double slope) {
        double lowest = Double.POSITIVE_INFINITY;
        double highest = Double.NEGATIVE_INFINITY;
        for (int h : face.perimeter()) {
            Vector3d p = face.mesh().vertex(face.topology().from(h));
            lowest = Math.min(lowest, p.z - slope * p.x);
            highest = Math.max(highest, p.z - slope * p.x);
        }
        return highest - lowest;
    }

    private static FaceResult extract(RevolvedShell shell, Vector3d pull) {
        return FaceExtraction.extract(shell.mesh(), EdgeTopology.of(shell.mesh()), pull, new Keep.Outer());
    }

    private static double area(FaceResult face, RevolvedShell shell, int... regions) {
        double sum = 0;
        for (int t = 0; t < face.sourceTriangle().length; t++) {
            for (int region : regions) {
                if (shell.region()[face.sourceTriangle()[t]] == region) {
                    sum += face.mesh().areaNormal(t).length() / 2;
                }
            }
        }
        return sum;
    }

    private static TriangleMesh cube(double a) {
        double[] xyz = new double[24];
        for (int v = 0; v < 8; v++) {
            xyz[3 * v] = a * (v & 1);
            xyz[3 * v + 1] = a * (v >> 1 & 1);
            xyz[3 * v + 2] = a * (v >> 2);
        }
        return new TriangleMesh(xyz, new int[] {0, 2, 1, 1, 2, 3, 4, 5, 6, 5, 7, 6, 0, 1, 4, 1, 5, 4, 2, 6, 3, 3, 6, 7,
            0, 4, 2, 2, 4, 6, 1, 3, 5, 3, 7, 5});
    }
}
