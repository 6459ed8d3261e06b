package layupmold.geometry;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertSame;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.junit.jupiter.api.Test;

/** A square plate of 40 mm with two square holes, as few triangles as that takes. */
class FaceFrameTest {

    private static final int[][] HOLES = {{8, 9, 10, 11}, {4, 5, 6, 7}};

    private final FaceFrame plate = plate();

    @Test
    void thePerimeterIsFoundAgainAndItsSidesAreShort() {
        FaceFrame fine = plate.withShortSides(each(4));
        for (int h : fine.perimeter()) {
            double length = fine.mesh().vertex(fine.topology().from(h)).distance(fine.mesh().vertex(fine.topology().to(h)));
            assertTrue(length <= 4 && fine.topology().twin(h) == EdgeTopology.BOUNDARY, "side of " + length);
        }
        assertEquals(List.of(0, 1, 2, 3), given(fine, fine.perimeter()).stream().sorted().toList());
    }

    @Test
    void openingsKeepTheirOrder() {
        FaceFrame fine = plate.withShortSides(each(4));
        assertEquals(2, fine.openings().size());
        for (int i = 0; i < 2; i++) {
            List<Integer> expected = Arrays.stream(HOLES[i]).boxed().toList();
            assertEquals(expected, given(fine, fine.openings().get(i)).stream().sorted().toList());
        }
    }

    @Test
    void whatIsShortEnoughStaysAsItIs() {
        assertSame(plate, plate.withShortSides(each(41)));
    }

    private double[] each(double mostMm) {
        double[] most = new double[plate.perimeter().length];
        Arrays.fill(most, mostMm);
        return most;
    }

    /** Vertices of a loop that the plate had before. */
    private List<Integer> given(FaceFrame fine, int[] loop) {
        return Arrays.stream(loop).map(fine.topology()::from).filter(v -> v < plate.mesh().vertexCount()).boxed().toList();
    }

    private static FaceFrame plate() {
        double[] xyz = {0, 0, 0, 40, 0, 0, 40, 40, 0, 0, 40, 0,
            8, 15, 0, 16, 15, 0, 16, 25, 0, 8, 25, 0,
            24, 15, 0, 32, 15, 0, 32, 25, 0, 24, 25, 0};
        int[] triangles = {0, 5, 4, 0, 1, 5, 1, 8, 5, 1, 9, 8, 1, 2, 9, 2, 10, 9, 2, 11, 10, 2, 6, 11, 2, 3, 6, 3, 7, 6,
            3, 4, 7, 3, 0, 4, 5, 8, 11, 5, 11, 6};
        TriangleMesh mesh = new TriangleMesh(xyz, triangles);
        EdgeTopology topology = EdgeTopology.of(mesh);
        List<int[]> loops = new ArrayList<>(topology.boundaryLoops());
        return new FaceFrame(mesh, topology, with(loops, topology, 0),
                List.of(with(loops, topology, HOLES[0][0]), with(loops, topology, HOLES[1][0])), RigidTransform.identity());
    }

    private static int[] with(List<int[]> loops, EdgeTopology topology, int vertex) {
        return loops.stream().filter(loop -> Arrays.stream(loop).anyMatch(h -> topology.from(h) == vertex)).findFirst()
                .orElseThrow();
    }
}
