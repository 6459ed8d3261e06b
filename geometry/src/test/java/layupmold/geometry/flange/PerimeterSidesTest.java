package layupmold.geometry.flange;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.testparts.HeelCup;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

class PerimeterSidesTest {

    private static final double SHORT_MM = 1;

    /** The rim's two ends are the only corners where the perimeter starts to run up the pull. */
    @Test
    void sidesAreShortWhereThePerimeterTurnsUpThePull() {
        double cutMm = 10;
        TriangleMesh cup = HeelCup.cutAt(cutMm, 3, 1);
        EdgeTopology topology = EdgeTopology.of(cup);
        int[] perimeter = topology.boundaryLoops().get(0);
        double[] most = PerimeterSides.mostMm(cup, topology, perimeter);
        double end = Math.sqrt(HeelCup.RADIUS_MM * HeelCup.RADIUS_MM - cutMm * cutMm);
        for (int i = 0; i < most.length; i++) {
            Vector3d from = cup.vertex(topology.from(perimeter[i]));
            Vector3d to = cup.vertex(topology.to(perimeter[i]));
            double farthest = Double.POSITIVE_INFINITY;
            double nearest = Double.POSITIVE_INFINITY;
            for (int side = -1; side <= 1; side += 2) {
                Vector3d corner = new Vector3d(side * end, cutMm, 0);
                farthest = Math.min(farthest, Math.max(from.distance(corner), to.distance(corner)));
                nearest = Math.min(nearest, Math.min(from.distance(corner), to.distance(corner)));
            }
            if (farthest < 3.5) {
                assertEquals(SHORT_MM, most[i], "near a corner, at " + from);
            } else if (nearest > 4.5) {
                assertEquals(PerimeterSides.LONGEST_MM, most[i], "far from both, at " + from);
            }
        }
        assertTrue(Arrays.stream(most).anyMatch(m -> m == SHORT_MM));
    }

    /** Corners of a level perimeter are mitred whatever their sides' length. */
    @Test
    void aLevelPerimeterKeepsItsSides() {
        TriangleMesh plate = Shapes.sheet(40, 10);
        EdgeTopology topology = EdgeTopology.of(plate);
        double[] most = PerimeterSides.mostMm(plate, topology, topology.boundaryLoops().get(0));
        assertTrue(Arrays.stream(most).allMatch(m -> m == PerimeterSides.LONGEST_MM));
    }
}
