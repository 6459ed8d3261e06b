package layupmold.geometry.offset;

import static org.junit.jupiter.api.Assertions.assertEquals;

import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import org.junit.jupiter.api.Test;

class VertexOffsetTest {

    /** The offset of a sphere is a sphere of R + o. */
    @Test
    void sphereGrowsByTheOffset() {
        TriangleMesh sphere = Shapes.sphere(40, 60);
        for (double offset : new double[] {0.02, 0.65, 5, -0.65, -5}) {
            double[] moved = VertexOffset.offset(sphere, offset);
            for (int i = 0; i < moved.length; i += 3) {
                double r = Math.sqrt(moved[i] * moved[i] + moved[i + 1] * moved[i + 1] + moved[i + 2] * moved[i + 2]);
                assertEquals(40 + offset, r, 0.02);
            }
        }
    }

    /** Planes of a box move by the offset exactly, so its corners are mitred to the larger box. */
    @Test
    void boxCornersAreMitred() {
        double[] xyz = new double[24];
        for (int v = 0; v < 8; v++) {
            xyz[3 * v] = (v & 1) * 10;
            xyz[3 * v + 1] = (v >> 1 & 1) * 10;
            xyz[3 * v + 2] = (v >> 2 & 1) * 10;
        }
        int[] triangles = {0, 2, 3, 0, 3, 1, 4, 5, 7, 4, 7, 6, 0, 1, 5, 0, 5, 4, 2, 6, 7, 2, 7, 3, 0, 4, 6, 0, 6, 2,
            1, 3, 7, 1, 7, 5};
        double[] moved = VertexOffset.offset(new TriangleMesh(xyz, triangles), 0.5);
        for (int i = 0; i < 24; i++) {
            assertEquals(xyz[i] == 0 ? -0.5 : 10.5, moved[i], 0.005);
        }
    }
}
