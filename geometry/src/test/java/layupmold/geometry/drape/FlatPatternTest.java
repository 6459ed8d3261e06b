package layupmold.geometry.drape;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.stream.IntStream;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Weave;
import layupmold.geometry.shapes.Shapes;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;
import org.locationtech.jts.geom.GeometryFactory;

class FlatPatternTest {

    private static DrapedPly drape(ToolSheet sheet, DrapeSpec spec) {
        return Drape.ply(sheet, spec, RigidTransform.identity());
    }

    /** Steiner's formula in the plane: a square of side s widened by m has area s² + 4sm + πm². */
    @Test
    void marginOfASquare() {
        ToolSheet sheet = ToolSheet.of(Shapes.sheet(100, 50));
        DrapedPly ply = drape(sheet, new DrapeSpec(Weave.PLAIN, 30, new Vector3d(40, 60, 0), 2, 40, 0));
        FlatPattern pattern = FlatPattern.of(ply, 20);
        assertEquals(100 * 100 + 4 * 100 * 20 + Math.PI * 400, pattern.outline().getArea(), 10);
        assertEquals(1, pattern.trimLines().size());
        assertEquals(400, pattern.trimLines().get(0).getLength(), 1e-3);
        assertEquals(4, pattern.notches().size());
        // The corner at (0, 0) as the cloth sees it: from the start mark, turned back by the warp's 30°.
        double cos = Math.cos(Math.toRadians(30));
        double sin = Math.sin(Math.toRadians(30));
        assertEquals(-40 * cos - 60 * sin, ply.uv()[0], 1e-3);
        assertEquals(40 * sin - 60 * cos, ply.uv()[1], 1e-3);
    }

    @Test
    void anOpeningIsATrimLineNotAHole() {
        TriangleMesh mesh = Shapes.sheet(120, 60);
        boolean[] cap = new boolean[mesh.triangleCount()];
        IntStream.range(0, cap.length).forEach(t -> {
            Vector3d c = mesh.centroid(t);
            cap[t] = c.x > 40 && c.x < 80 && c.y > 50 && c.y < 70;
        });
        ToolSheet sheet = ToolSheet.of(mesh, cap);
        FlatPattern pattern = FlatPattern.of(drape(sheet,
                new DrapeSpec(Weave.PLAIN, 0, null, 3, 40, 0)), 10);
        assertEquals(0, pattern.outline().getNumInteriorRing());
        assertEquals(2, pattern.trimLines().size());
        double opening = pattern.trimLines().stream()
                .mapToDouble(l -> new GeometryFactory().createPolygon(l.getCoordinateSequence()).getArea()).min()
                .orElseThrow();
        assertEquals(40 * 20, opening, 0.1);
    }
}
