package layupmold.geometry.face;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.shapes.Revolved;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Caps of a sphere with something bored through their middle; the true face is known by its vertices. */
class BoresTest {

    private static final double R = 80;
    private static final double MOUTH = 60;
    private static final int AROUND = 96;

    @ParameterizedTest
    @CsvSource({"1.5, 1.5, 2, 5, 0", "1.5, 3, 5, 15, 0", "3, 6, 2, 5, 0", "3, 15, 5, 15, 0", "2, 8, 3, 10, 20"})
    void aHoleThroughABossEndsAtTheFace(double wall, double hole, double boss, double length, double leanDeg) {
        double under = R - wall;
        double below = Math.sqrt(under * under - (hole + boss) * (hole + boss));
        TriangleMesh part = new Revolved().arc(0, 0, R, angle(MOUTH, R), angle(hole, R), 40)
                .to(hole, below - length / 2).to(hole, below - length).to(hole + boss, below - length)
                .arc(0, 0, under, angle(hole + boss, under), angle(MOUTH, under), 40).ring(AROUND);
        FaceResult face = extract(part, leanDeg);
        assertEquals(area(part, t -> isOn(part, t, R)), face.areaMm2(), 1e-6);
        assertEquals(1, face.openings().size());
    }

    @Test
    void aRoundedEdgeIsFollowedByTheHole() {
        double hole = 5;
        TriangleMesh part = new Revolved().arc(0, 0, R, angle(MOUTH, R), angle(hole + 1.5, R), 40)
                .arc(hole + 1.5, Math.sqrt(R * R - 6.5 * 6.5) - 1.5, 1.5, 90, 180, 8)
                .to(hole, 70).to(hole, 65).to(hole + 3, 65)
                .arc(0, 0, R - 2, angle(hole + 3, R - 2), angle(MOUTH, R - 2), 40).ring(AROUND);
        FaceResult face = extract(part, 0);
        int[] source = face.sourceTriangle();
        assertTrue(IntStream.of(source).noneMatch(t -> isBore(part, t, hole)));
        double cap = area(part, t -> isOn(part, t, R));
        assertTrue(face.areaMm2() > cap - 1e-6 && face.areaMm2() < cap + 2 * Math.PI * (hole + 1.5) * Math.PI / 2 * 1.5);
    }

    /** A pipe's end on the outside: its outside is the face's, its inside is not. */
    @Test
    void aPipesOutsideStaysAndItsInsideDoesNot() {
        double hole = 6;
        double pipe = 9;
        double foot = Math.sqrt(R * R - pipe * pipe);
        TriangleMesh part = new Revolved().arc(0, 0, R, angle(MOUTH, R), angle(pipe, R), 40)
                .to(pipe, foot + 6).to(pipe, foot + 12).to(hole, foot + 12).to(hole, foot).to(hole, foot - 5)
                .arc(0, 0, foot - 5, angle(hole, foot - 5) , angle(MOUTH, foot - 5), 40).ring(AROUND);
        FaceResult face = extract(part, 0);
        assertEquals(area(part, t -> isBore(part, t, pipe)), area(part, face, t -> isBore(part, t, pipe)), 1e-6);
        assertEquals(0, area(part, face, t -> isBore(part, t, hole)));
    }

    /** A straight recess with a hole in its floor is detail of the face. */
    @Test
    void aRecessStaysWithItsFloor() {
        double recess = 20;
        double hole = 8;
        TriangleMesh part = new Revolved().arc(0, 0, R, angle(MOUTH, R), angle(recess, R), 40)
                .to(recess, 72).to(14, 72).to(hole, 72).to(hole, 69).to(14, 69).to(recess + 3, 69)
                .arc(0, 0, R - 3, angle(recess + 3, R - 3), angle(MOUTH, R - 3), 40).ring(AROUND);
        IntPredicate detail = t -> isOn(part, t, R) || isBore(part, t, recess) || isLevel(part, t, 72);
        FaceResult face = extract(part, 0);
        assertEquals(area(part, detail), area(part, face, detail), 1e-6);
        assertEquals(face.areaMm2(), area(part, face, detail), 1e-6);
    }

    private static double angle(double r, double radius) {
        return Math.toDegrees(Math.acos(r / radius));
    }

    private static FaceResult extract(TriangleMesh part, double leanDeg) {
        Vector3d pull = new Vector3d(0, 0, -1).rotateX(Math.toRadians(leanDeg));
        return FaceExtraction.extract(part, EdgeTopology.of(part), pull, new Keep.Outer());
    }

    private static boolean isOn(TriangleMesh part, int t, double radius) {
        return IntStream.range(0, 3).allMatch(k -> Math.abs(part.corner(t, k).length() - radius) < 1e-9);
    }

    private static boolean isBore(TriangleMesh part, int t, double radius) {
        return IntStream.range(0, 3).allMatch(k ->
                Math.abs(Math.hypot(part.corner(t, k).x, part.corner(t, k).y) - radius) < 1e-9);
    }

    private static boolean isLevel(TriangleMesh part, int t, double z) {
        return IntStream.range(0, 3).allMatch(k -> Math.abs(part.corner(t, k).z - z) < 1e-9);
    }

    private static double area(TriangleMesh part, IntPredicate chosen) {
        return IntStream.range(0, part.triangleCount()).filter(chosen)
                .mapToDouble(t -> part.areaNormal(t).length() / 2).sum();
    }

    /** Area of the chosen input triangles that the face has. */
    private static double area(TriangleMesh part, FaceResult face, IntPredicate chosen) {
        return IntStream.range(0, face.sourceTriangle().length).filter(t -> chosen.test(face.sourceTriangle()[t]))
                .mapToDouble(t -> face.mesh().areaNormal(t).length() / 2).sum();
    }
}
