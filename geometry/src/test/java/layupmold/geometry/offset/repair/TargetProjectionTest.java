package layupmold.geometry.offset.repair;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import layupmold.geometry.mesh.TriangleMesh;
import org.junit.jupiter.api.Test;

/** A ridge along y between two planes that fall off by 4°, offset upwards. */
class TargetProjectionTest {

    private static final double FALL = Math.toRadians(4);
    private static final double OFFSET_MM = 0.65;
    private static final double MITRE_LIMIT = 2.5;
    /** The vertex on the ridge that lies on no boundary. */
    private static final int MIDDLE = 4;

    private final TriangleMesh ridge = ridge();
    private final OffsetField field = new OffsetField(ridge, new boolean[] {true, true, true, true, true, true, true, true}, OFFSET_MM, MITRE_LIMIT);

    @Test
    void aVertexAtTheOffsetOfBothPlanesDoesNotMiss() {
        double[] moved = movedTo(0, OFFSET_MM / Math.cos(FALL));
        double[] before = moved.clone();
        assertFalse(project(moved)[MIDDLE]);
        assertEquals(before[3 * MIDDLE + 2], moved[3 * MIDDLE + 2]);
        assertEquals(0, field.planeMiss(MIDDLE, 0, 10, OFFSET_MM / Math.cos(FALL)), 1e-12);
    }

    /** Half a millimetre down one side it is at the offset, but the other side's triangles end too low in it. */
    @Test
    void aVertexAtTheOffsetOfOnePlaneOnlyMisses() {
        double aside = 0.5 * Math.cos(FALL) + OFFSET_MM * Math.sin(FALL);
        double up = -0.5 * Math.sin(FALL) + OFFSET_MM * Math.cos(FALL);
        OffsetField.Sample sample = new OffsetField.Sample();
        field.at(aside, 10, up, sample);
        assertEquals(0, sample.value, 1e-12, "the nearest point of the face is at the offset");
        assertTrue(project(movedTo(aside, up))[MIDDLE]);
        double height = OFFSET_MM * Math.cos(2 * FALL) - 0.5 * Math.sin(2 * FALL);
        assertEquals(OFFSET_MM - height, field.planeMiss(MIDDLE, aside, 10, up), 1e-12);
    }

    private boolean[] project(double[] moved) {
        return TargetProjection.project(moved, new boolean[9], field);
    }

    private double[] movedTo(double x, double z) {
        double[] moved = ridge.xyz().clone();
        moved[3 * MIDDLE] = x;
        moved[3 * MIDDLE + 2] = z;
        return moved;
    }

    private static TriangleMesh ridge() {
        double[] xyz = new double[27];
        for (int v = 0; v < 9; v++) {
            xyz[3 * v] = 10 * (v % 3) - 10;
            xyz[3 * v + 1] = 10 * (v / 3);
            xyz[3 * v + 2] = -Math.abs(xyz[3 * v]) * Math.tan(FALL);
        }
        return new TriangleMesh(xyz,
                new int[] {0, 1, 4, 0, 4, 3, 1, 2, 5, 1, 5, 4, 3, 4, 7, 3, 7, 6, 4, 5, 8, 4, 8, 7});
    }
}
