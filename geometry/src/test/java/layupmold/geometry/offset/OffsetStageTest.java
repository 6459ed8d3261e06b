package layupmold.geometry.offset;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import java.util.function.UnaryOperator;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.flange.FlangedSurface;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Sheets of known shape, moved by more than their creases and grooves bear. */
class OffsetStageTest {

    private static final CoordinateLattice LATTICE = CoordinateLattice.within(500);
    private static final double SIZE = 40;
    private static final int CELLS = 80;

    /** The offsets of the two planes of a valley meet in a line: elementary geometry. */
    @ParameterizedTest
    @ValueSource(doubles = {0.4, 1.5})
    void twoPlanesOfAValleyMeetInASharpLine(double offset) {
        double slope = Math.toRadians(40);
        TriangleMesh sheet = bent(p -> {
            double x = p.x - SIZE / 2;
            return new Vector3d(x * Math.cos(slope), p.y - SIZE / 2, Math.abs(x) * Math.sin(slope));
        });
        OffsetSurface moved = moved(sheet, offset);
        double lowest = Double.POSITIVE_INFINITY;
        for (int v = 0; v < moved.mesh().vertexCount(); v++) {
            Vector3d p = moved.mesh().vertex(v);
            if (Math.abs(p.y) < SIZE / 2 - 2) {
                double height = (p.z - Math.abs(p.x) * Math.tan(slope)) * Math.cos(slope);
                assertEquals(offset, height, 3e-3, () -> "off its plane at " + p);
                lowest = Math.min(lowest, p.z);
            }
        }
        assertEquals(offset / Math.cos(slope), lowest, 4e-3);
    }

    /** A trough of radius r moved inward by more than r closes over: what is left is the offset of its two brinks. */
    @Test
    void aTroughNarrowerThanTwiceTheOffsetIsBridgedAtTheOffsetOfItsBrinks() {
        double offset = 2;
        // A whole number of cells, so that the brinks are edges of the mesh.
        double radius = 1.5;
        TriangleMesh sheet = bent(p -> {
            double x = p.x - SIZE / 2;
            double depth = Math.abs(x) < radius ? -Math.sqrt(radius * radius - x * x) : 0;
            return new Vector3d(x, p.y - SIZE / 2, depth);
        });
        OffsetSurface moved = moved(sheet, offset);
        for (int v = 0; v < moved.mesh().vertexCount(); v++) {
            Vector3d p = moved.mesh().vertex(v);
            if (Math.abs(p.y) < SIZE / 2 - 3 && Math.abs(p.x) < 0.5) {
                // Between the circles around the brinks at (±r, 0) and, mitred, the plane over both.
                double round = Math.sqrt(offset * offset - Math.pow(radius - Math.abs(p.x), 2));
                assertTrue(p.z > round - 0.03 && p.z < offset + 0.03, () -> "bridge at " + p);
            }
        }
    }

    /** A sheet laid in a loop: (u − a sin(πu/5), cos²(πu/10)) passes x = 0 three times, twice of them at one height. */
    @Test
    @Timeout(60)
    void aFaceThatRunsThroughItselfIsNamedWithItsPlace() {
        TriangleMesh sheet = bent(p -> {
            double u = p.x - SIZE / 2;
            double height = Math.abs(u) < 5 ? Math.pow(Math.cos(Math.PI * u / 10), 2) : 0;
            double back = Math.abs(u) < 5 ? 4 * Math.sin(Math.PI * u / 5) : 0;
            return new Vector3d(u - back, p.y - SIZE / 2, 4 * height);
        });
        List<Finding> findings;
        try {
            findings = OffsetStage.offset(new FlangedSurface(sheet, new byte[sheet.triangleCount()], Shapes.outline(sheet),
                    List.of()), 0.3, LATTICE).findings();
        } catch (Rejection rejection) {
            findings = List.of(rejection.finding());
        }
        Finding crossing = findings.stream().filter(f -> f.code().equals("face-crosses-itself")).findFirst().orElseThrow();
        assertEquals(0, crossing.place().x(), 1, "the loop crosses itself at x = 0");
    }

    private static OffsetSurface moved(TriangleMesh sheet, double offset) {
        int[] outline = Shapes.outline(sheet);
        OffsetSurface moved = OffsetStage.offset(
                new FlangedSurface(sheet, new byte[sheet.triangleCount()], outline, List.of()), offset, LATTICE);
        EdgeTopology edges = EdgeTopology.of(moved.mesh());
        assertEquals(0, edges.nonManifoldCount());
        assertEquals(1, edges.boundaryLoops().size());
        assertEquals(0, SelfIntersections.find(moved.mesh(), TriangleBvh.of(moved.mesh()), 10).length);
        return moved;
    }

    private static TriangleMesh bent(UnaryOperator<Vector3d> bend) {
        return Shapes.bent(Shapes.sheet(SIZE, CELLS), bend);
    }
}
