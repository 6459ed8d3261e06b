package layupmold.geometry.inspect;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.function.Predicate;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Pick;
import layupmold.geometry.shapes.Revolved;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

/** Oracles are offsets of spheres and cups: a sphere of radius R offset by o is a sphere of radius R + o. */
class ToolDeviationTest {

    private static final double OFFSET = 0.65;
    private static final int SEGMENTS = 160;
    private static final double HEIGHT = 60;

    /** A round block whose cavity is the lower half of a sphere around (0, 0, 60). */
    private static TriangleMesh bowl(double radius) {
        return new Revolved().to(0, 0).to(50, 0).to(50, HEIGHT).arc(0, HEIGHT, radius, 0, -90, 60).solid(SEGMENTS);
    }

    private static Predicate<Vector3d> nearSphere(double radius) {
        return c -> c.distance(0, 0, HEIGHT) < radius + 1e-6 && c.z < HEIGHT - 1e-6;
    }

    /** A round block whose cavity is a cup with a flat bottom and a square corner. */
    private static TriangleMesh cup(double radius, double bottom) {
        return new Revolved().to(0, 0).to(50, 0).to(50, HEIGHT).to(radius, HEIGHT).to(radius, bottom).to(0, bottom)
                .solid(SEGMENTS);
    }

    private static Predicate<Vector3d> inCup(double radius, double bottom) {
        return c -> Math.hypot(c.x, c.y) < radius + 1e-6 && c.z > bottom - 1e-6 && c.z < HEIGHT - 1e-6;
    }

    private static DeviationFigures measure(
            TriangleMesh mold, Predicate<Vector3d> tool, TriangleMesh cavityOfFace, Predicate<Vector3d> face,
            double offset) {
        MeasuredSolid solid = MeasuredSolid.of(mold, Pick.regions(mold, MoldRegion.TOOL, tool));
        // A cavity's triangles face into it; the face that lies in it faces out of it.
        return ToolDeviation.measure(
                solid, CopiedSurface.of(Pick.triangles(cavityOfFace, face).flipped()), offset).figures();
    }

    private static DeviationFigures sphere(double toolRadius, double offset) {
        return measure(bowl(toolRadius), nearSphere(toolRadius), bowl(40), nearSphere(40), offset);
    }

    @Test
    void anOffsetSphereHasNoDeviation() {
        DeviationFigures figures = sphere(40 + OFFSET, OFFSET);
        // Facets lie cos(half their angle) nearer to the centre: offset × (1 - cos(1.36°)) = 0.0002.
        assertEquals(0, figures.meanMm(), 3e-4);
        assertEquals(0, figures.maxMm(), 6e-4);
        assertEquals(0, figures.coverMaxMm(), 6e-4);
        assertEquals(0, figures.uncoveredMm2());
        assertEquals(0, figures.reachLimitedMm2());
        assertEquals(0, figures.unreachedMm2());
    }

    @Test
    void aSphereTooLargeDeviatesByTheDifferenceEverywhere() {
        DeviationFigures figures = sphere(40 + OFFSET + 0.05, OFFSET);
        assertEquals(0.05, figures.meanMm(), 5e-4);
        assertEquals(0.05, figures.p95Mm(), 5e-4);
        assertEquals(0.05, figures.maxMm(), 1e-3);
        assertEquals(0.05, figures.coverMaxMm(), 1e-3);
        assertEquals(2 * Math.PI * 1600, figures.uncoveredMm2(), 0.005 * 2 * Math.PI * 1600);
    }

    @Test
    void aSphereOnTheWrongSideDeviatesByTwiceTheOffset() {
        DeviationFigures figures = sphere(40 - OFFSET, OFFSET);
        assertEquals(2 * OFFSET, figures.meanMm(), 1e-3);
    }

    @Test
    void aDentIsFoundWhereItIs() {
        TriangleMesh mold = bowl(40 + OFFSET);
        double[] xyz = mold.xyz().clone();
        int dent = dentedVertex(mold);
        Vector3d place = new Vector3d(xyz[3 * dent], xyz[3 * dent + 1], xyz[3 * dent + 2]);
        Vector3d moved = new Vector3d(place).sub(0, 0, HEIGHT).mul(1 - 0.3 / (40 + OFFSET)).add(0, 0, HEIGHT);
        xyz[3 * dent] = moved.x;
        xyz[3 * dent + 1] = moved.y;
        xyz[3 * dent + 2] = moved.z;
        DeviationFigures figures = measure(new TriangleMesh(xyz, mold.triangles()), nearSphere(40 + OFFSET), bowl(40),
                nearSphere(40), OFFSET);
        // Six triangles fall off linearly from 0.3 mm to nothing; a dozen samples or so lie on them.
        assertTrue(figures.maxMm() > 0.1 && figures.maxMm() <= 0.3, "max " + figures.maxMm());
        assertTrue(place.distance(figures.maxAt().x(), figures.maxAt().y(), figures.maxAt().z()) < 1.5, "at " + figures.maxAt() + " not " + place);
        assertEquals(0, figures.p95Mm(), 1e-3);
    }

    private static int dentedVertex(TriangleMesh mold) {
        for (int v = 0; v < mold.vertexCount(); v++) {
            Vector3d p = mold.vertex(v);
            if (Math.abs(p.distance(0, 0, HEIGHT) - 40 - OFFSET) < 1e-6 && p.z < HEIGHT - 20 && p.x > 20) {
                return v;
            }
        }
        throw new AssertionError("no vertex there");
    }

    @Test
    void aMitredCornerIsToldApart() {
        double r = 30 + OFFSET;
        DeviationFigures figures = measure(cup(r, 20 - OFFSET), inCup(r, 20 - OFFSET), cup(30, 20), inCup(30, 20),
                OFFSET);
        assertEquals(0, figures.maxMm(), 1e-3);
        assertEquals(0, figures.coverMaxMm(), 1e-3);
        // The mitre: a ring of the bottom beyond the face's radius and a ring of the wall below its bottom.
        double ring = Math.PI * (r * r - 900) + 2 * Math.PI * r * OFFSET;
        assertEquals(ring, figures.reachLimitedMm2(), 0.03 * ring);
    }

    /** The chamfer's plane passes the face's corner at (2 · offset − leg) / √2, inside the round offset. */
    @Test
    void aCornerCutOffBelowTheOffsetIsNoMitre() {
        double leg = 0.5;
        double r = 30 + OFFSET;
        double bottom = 20 - OFFSET;
        TriangleMesh mold = new Revolved().to(0, 0).to(50, 0).to(50, HEIGHT).to(r, HEIGHT).to(r, bottom + leg)
                .to(r - leg, bottom).to(0, bottom).solid(SEGMENTS);
        DeviationFigures figures = measure(mold, inCup(r, bottom), cup(30, 20), inCup(30, 20), OFFSET);
        assertEquals(OFFSET - (2 * OFFSET - leg) / Math.sqrt(2), figures.maxMm(), 2e-3);
    }

    @Test
    void anInnerCornerThatTheOffsetCannotReachIsToldApart() {
        double r = 30 - OFFSET;
        // Offset to the inside of the cup: the tool has the face on its other side, only the distances matter.
        DeviationFigures figures = measure(cup(r, 20 + OFFSET), inCup(r, 20 + OFFSET), cup(30, 20), inCup(30, 20),
                -OFFSET);
        assertEquals(0, figures.maxMm(), 1e-3);
        assertEquals(0, figures.uncoveredMm2());
        // Face points within the offset of the corner would go past the other wall; the tolerance takes 0.02 mm off.
        double reach = OFFSET - ToolDeviation.TOLERANCE_MM;
        double ring = Math.PI * (900 - (30 - reach) * (30 - reach)) + 2 * Math.PI * 30 * reach;
        assertEquals(ring, figures.unreachedMm2(), 0.03 * ring);
    }

    @Test
    void theMapCoversTheToolAndNothingElse() {
        TriangleMesh mold = bowl(40.7);
        byte[] regions = Pick.regions(mold, MoldRegion.TOOL, nearSphere(40.7));
        ToolDeviation measured = ToolDeviation.measure(MeasuredSolid.of(mold, regions),
                CopiedSurface.of(Pick.triangles(bowl(40), nearSphere(40)).flipped()), OFFSET);
        assertNotNull(measured.figures().maxAt());
        float[] map = measured.map();
        for (int t = 0; t < map.length; t++) {
            if (regions[t] == MoldRegion.TOOL.ordinal()) {
                assertEquals(0.05, map[t], 1e-3);
            } else {
                assertTrue(Float.isNaN(map[t]));
            }
        }
    }
}
