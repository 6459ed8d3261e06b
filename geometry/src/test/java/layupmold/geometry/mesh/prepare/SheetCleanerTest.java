package layupmold.geometry.mesh.prepare;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import org.joml.Vector3d;
import org.junit.jupiter.api.Test;

class SheetCleanerTest {

    /** Splits a triangle at a point a hair off one of its corners or edges: a needle or a cap and two neighbours. */
    private static TriangleMesh withSlivers(TriangleMesh sheet, long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        int splits = sheet.triangleCount() / 3;
        double[] xyz = new double[sheet.xyz().length + 3 * splits];
        int[] triangles = new int[sheet.triangles().length + 6 * splits];
        System.arraycopy(sheet.xyz(), 0, xyz, 0, sheet.xyz().length);
        System.arraycopy(sheet.triangles(), 0, triangles, 0, sheet.triangles().length);
        for (int k = 0; k < splits; k++) {
            int t = 3 * k;
            double a = random.nextBoolean() ? 1e-4 : 0.4;
            double b = random.nextBoolean() ? 1e-5 : 1e-4;
            Vector3d p = sheet.corner(t, 0).mul(1 - a - b).add(sheet.corner(t, 1).mul(a)).add(sheet.corner(t, 2).mul(b));
            int v = sheet.vertexCount() + k;
            xyz[3 * v] = p.x;
            xyz[3 * v + 1] = p.y;
            xyz[3 * v + 2] = p.z;
            int[] corner = {triangles[3 * t], triangles[3 * t + 1], triangles[3 * t + 2]};
            int at = sheet.triangles().length + 6 * k;
            triangles[3 * t + 2] = v;
            System.arraycopy(new int[] {corner[1], corner[2], v, corner[2], corner[0], v}, 0, triangles, at, 6);
        }
        return new TriangleMesh(xyz, triangles);
    }

    private static int slivers(TriangleMesh mesh, double height) {
        int count = 0;
        for (int t = 0; t < mesh.triangleCount(); t++) {
            count += SliverRemover.isSliver(mesh.xyz(), mesh.triangles(), t, height) ? 1 : 0;
        }
        return count;
    }

    @Test
    void sliversGoAndTheSheetStays() {
        TriangleMesh plain = Shapes.sheet(100, 40);
        TriangleMesh rough = withSlivers(plain, 5);
        assertTrue(slivers(rough, 0.02) > 300);
        SheetCleaner.Cleaned clean = SheetCleaner.withoutSlivers(rough, 0.02);
        assertEquals(0, slivers(clean.mesh(), 0.02));
        assertEquals(plain.area(), clean.mesh().area(), 1e-3 * plain.area());
        assertEquals(1, EdgeTopology.of(clean.mesh()).boundaryLoops().size());
        assertEquals(clean.mesh().triangleCount(), clean.source().length);
        for (int t = 0; t < clean.source().length; t++) {
            assertTrue(clean.mesh().centroid(t).distance(rough.centroid(clean.source()[t])) < 5);
        }
    }
}
