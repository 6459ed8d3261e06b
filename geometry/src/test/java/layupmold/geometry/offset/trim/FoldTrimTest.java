package layupmold.geometry.offset.trim;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;

import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

/** A sheet with a swallowtail of known shape, as the offset of a ring-shaped valley makes it. */
class FoldTrimTest {

    private static final int SIDES = 60;
    private static final double VALLEY = 30;
    private static final double HALF_WIDTH = 10;
    private static final double STEP = 2;
    /** How far either side of the valley runs on past the crossing. */
    private static final double OVERLAP = 3.3;

    /**
     * Around a polygon of 60 sides, in section: two sides of the valley z = |r − 30| run on past their crossing and are
     * joined below it by a strip that runs backward.
     */
    private static TriangleMesh swallowtail() {
        int rings = (int) (2 * HALF_WIDTH / STEP) + 1;
        double[] xyz = new double[3 * rings * SIDES];
        int[] triangles = new int[6 * (rings - 1) * SIDES];
        int n = 0;
        for (int j = 0; j < rings; j++) {
            double x = j * STEP - HALF_WIDTH;
            double shifted = x < 0 ? x + OVERLAP : x > 0 ? x - OVERLAP : 0;
            double z = x < 0 ? -shifted : x > 0 ? shifted : -1.4 * OVERLAP;
            for (int i = 0; i < SIDES; i++) {
                double angle = 2 * Math.PI * i / SIDES;
                int v = j * SIDES + i;
                xyz[3 * v] = (VALLEY + shifted) * Math.cos(angle);
                xyz[3 * v + 1] = (VALLEY + shifted) * Math.sin(angle);
                xyz[3 * v + 2] = z;
                if (j + 1 < rings) {
                    int next = j * SIDES + (i + 1) % SIDES;
                    for (int c : new int[] {v, v + SIDES, next + SIDES, v, next + SIDES, next}) {
                        triangles[n++] = c;
                    }
                }
            }
        }
        return new TriangleMesh(xyz, triangles);
    }

    /** Radius of the polygon through a point. */
    private static double radius(double x, double y) {
        double side = 2 * Math.PI / SIDES;
        double angle = Math.atan2(y, x);
        double fromMiddle = angle - (Math.floor(angle / side) + 0.5) * side;
        return Math.hypot(x, y) * Math.cos(fromMiddle) / Math.cos(side / 2);
    }

    @Test
    void whatHangsBelowTheCrossingIsCutOffAlongIt() {
        TriangleMesh mesh = swallowtail();
        boolean[] turned = new boolean[mesh.triangleCount()];
        for (int t = 0; t < turned.length; t++) {
            turned[t] = mesh.areaNormal(t).z < 0;
        }
        FoldTrim.Result result = FoldTrim.trim(mesh, turned,
                () -> (x, y, z) -> (z - Math.abs(radius(x, y) - VALLEY)) / Math.sqrt(2));
        assertNotNull(result);
        TriangleMesh left = result.mesh();
        for (int t = 0; t < left.triangleCount(); t++) {
            Vector3d p = left.centroid(t);
            assertEquals(Math.abs(radius(p.x, p.y) - VALLEY), p.z, 1e-4);
        }
        // Trapezoids from the crossing at r = 30 to r = 30 ± 6.7; sides 2 r sin(π/60), apothems r cos(π/60).
        double reach = HALF_WIDTH - OVERLAP;
        double slant = reach * Math.hypot(1, Math.cos(Math.PI / SIDES));
        double expected = 2 * SIDES * Math.sin(Math.PI / SIDES) * 2 * VALLEY * slant;
        assertEquals(expected, left.area(), 1e-3);
        assertEquals(0, SelfIntersections.find(left, TriangleBvh.of(left), 10).length);
        assertEquals(0, result.defects().length);
        assertEquals(EdgeTopology.of(mesh).boundaryCount(), EdgeTopology.of(left).boundaryCount());
        for (int v = 0; v < left.vertexCount(); v++) {
            if (result.given()[v] >= 0) {
                assertEquals(mesh.vertex(result.given()[v]), left.vertex(v));
            }
        }
    }

    @Test
    void aSoundSheetComesBackWhole() {
        TriangleMesh sheet = Shapes.sheet(20, 10);
        FoldTrim.Result result = FoldTrim.trim(sheet, new boolean[sheet.triangleCount()], () -> (x, y, z) -> 0);
        assertEquals(sheet.triangleCount(), result.mesh().triangleCount());
        assertEquals(0, result.defects().length);
        assertEquals(EdgeTopology.of(sheet).boundaryCount(), EdgeTopology.of(result.mesh()).boundaryCount());
    }
}
