package layupmold.geometry.offset.repair;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import layupmold.geometry.mesh.TriangleMesh;
import org.junit.jupiter.api.Test;

/** The corner of two upright walls, x = 0 and y = 0, under a ledge that leans out at 50° around it. */
class OffsetFieldTest {

    private static final double OFFSET_MM = 0.65;
    private static final double LEDGE = 1 / Math.tan(Math.toRadians(50));
    private static final int WALL_TRIANGLES = 4;

    private final TriangleMesh corner = new TriangleMesh(
            new double[] {0, -10, -10, 0, 0, -10, -10, 0, -10, 0, -10, 0, 0, 0, 0, -10, 0, 0,
                LEDGE, -10, 1, LEDGE, LEDGE, 1, -10, LEDGE, 1},
            new int[] {0, 1, 4, 0, 4, 3, 2, 4, 1, 2, 5, 4, 3, 4, 7, 3, 7, 6, 4, 5, 7, 5, 8, 7});

    /** On the walls' mitre, just under the ledge's, the ledge's corner is nearer than the walls'. */
    @Test
    void theCopiedWallsMitreGoesOnWhereTheFlangeIsNearer() {
        assertEquals(0, miss(WALL_TRIANGLES, 0), 1e-9);
        assertEquals(0.02, miss(WALL_TRIANGLES, 0.02), 1e-9);
    }

    /** Within what is copied a place is held against what is nearest: the height over the ledge's planes. */
    @Test
    void whatIsNearestDecidesWithinTheCopied() {
        double height = (OFFSET_MM - LEDGE * z()) / Math.hypot(1, LEDGE);
        assertEquals(height - OFFSET_MM, miss(corner.triangleCount(), 0), 1e-9);
    }

    private double miss(int copied, double beyond) {
        boolean[] isCopied = new boolean[corner.triangleCount()];
        Arrays.fill(isCopied, 0, copied, true);
        OffsetField.Sample sample = new OffsetField.Sample();
        new OffsetField(corner, isCopied, OFFSET_MM, 2.5)
                .at(OFFSET_MM + beyond, OFFSET_MM + beyond, z(), sample);
        return sample.miss();
    }

    /** A tenth of a millimetre below where the walls' and the ledge's offsets meet. */
    private static double z() {
        return OFFSET_MM * (1 - Math.hypot(1, LEDGE)) / LEDGE - 0.1;
    }
}
