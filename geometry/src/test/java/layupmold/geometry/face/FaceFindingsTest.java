package layupmold.geometry.face;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Arrays;
import java.util.function.DoublePredicate;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import org.junit.jupiter.api.Test;

class FaceFindingsTest {

    private static final TriangleMesh BALL = Shapes.sphere(50, 40);
    private static final EdgeTopology TOPOLOGY = EdgeTopology.of(BALL);

    /** A cut through a ball has no rim; it runs along edges around a circle, in a zigzag. */
    @Test
    void measuresTheCutAcrossASmoothWall() {
        Finding finding = cutAcross(z -> z > 10);
        assertEquals("cut-across-wall", finding.code());
        double circle = 2 * Math.PI * Math.sqrt(50 * 50 - 10 * 10);
        assertEquals(2 * circle, finding.figure(), circle);
    }

    /** Ribs that stand deeper than the rim are seen beside it; what is left out of them is no cut of the face. */
    @Test
    void leavesOutPiecesThatAreNotKept() {
        assertEquals(cutAcross(z -> z > 10).figure(), cutAcross(z -> z > 10 || z < -30).figure());
    }

    private static Finding cutAcross(DoublePredicate kept) {
        int n = BALL.triangleCount();
        boolean[] labels = new boolean[n];
        for (int t = 0; t < n; t++) {
            labels[t] = kept.test(BALL.centroid(t).z);
        }
        float[] thickness = new float[n];
        Arrays.fill(thickness, 3);
        Creases creases = Creases.ofShell(BALL, TOPOLOGY, EdgeAngles.of(BALL, TOPOLOGY), thickness);
        return FaceFindings.cutAcrossWall(BALL, TOPOLOGY, creases, new WallLabels(labels, new float[n]),
                LabelRegions.of(TOPOLOGY, labels),
                RimBand.of(BALL, TOPOLOGY, creases, Segments.of(TOPOLOGY, creases), labels)).get();
    }
}
