package layupmold.geometry.mesh.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.SplittableRandom;
import java.util.stream.IntStream;
import layupmold.geometry.mesh.TriangleMesh;
import net.jqwik.api.Example;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.IntRange;
import org.joml.Matrix3d;
import org.joml.Vector3d;

class PolygonTriangulatorProperties {

    private static TriangleMesh cut(double[] xyz) {
        int n = xyz.length / 3;
        int[] out = new int[3 * (n - 2)];
        PolygonTriangulator triangulator = new PolygonTriangulator(xyz);
        assertEquals(out.length, triangulator.triangulate(IntStream.range(0, n).toArray(), 0, n, out, 0));
        assertEquals(0, triangulator.awkward());
        return new TriangleMesh(xyz, out);
    }

    /** Area of a plane polygon by the shoelace formula. */
    private static double shoelace(double[] xy) {
        double twice = 0;
        for (int i = 0; i < xy.length; i += 3) {
            int j = (i + 3) % xy.length;
            twice += xy[i] * xy[j + 1] - xy[j] * xy[i + 1];
        }
        return twice / 2;
    }

    /** Star-shaped about the origin, so simple by construction, with many reflex corners. */
    @Property(tries = 500, seed = "31")
    void areasAddUpAndAllFaceTheSameWay(@ForAll @IntRange(min = 4, max = 60) int n, @ForAll long seed) {
        SplittableRandom random = new SplittableRandom(seed);
        double[] flat = new double[3 * n];
        for (int i = 0; i < n; i++) {
            double angle = 2 * Math.PI * (i + 0.8 * random.nextDouble()) / n;
            double radius = 10 * (0.1 + random.nextDouble());
            flat[3 * i] = radius * Math.cos(angle);
            flat[3 * i + 1] = radius * Math.sin(angle);
        }
        double area = shoelace(flat);
        Matrix3d turn = new Matrix3d().rotateXYZ(6 * random.nextDouble(), 6 * random.nextDouble(),
                6 * random.nextDouble());
        Vector3d normal = turn.transform(new Vector3d(0, 0, 1));
        double[] xyz = new double[3 * n];
        for (int i = 0; i < n; i++) {
            Vector3d p = turn.transform(new Vector3d(flat[3 * i], flat[3 * i + 1], 0)).add(100, -50, 20);
            xyz[3 * i] = p.x;
            xyz[3 * i + 1] = p.y;
            xyz[3 * i + 2] = p.z;
        }
        TriangleMesh mesh = cut(xyz);
        double sum = 0;
        for (int t = 0; t < mesh.triangleCount(); t++) {
            double part = mesh.areaNormal(t).dot(normal) / 2;
            assertTrue(part > -1e-9, "triangle " + t + " is turned: " + part);
            sum += part;
        }
        assertEquals(area, sum, 1e-9 * area);
    }

    @Example
    void cornersOnAStraightSideGetTrianglesWithArea() {
        TriangleMesh mesh = cut(new double[] {0, 0, 0, 1, 0, 0, 2, 0, 0, 3, 0, 0, 3, 2, 0, 2, 2, 0, 1, 2, 0, 0, 2, 0});
        for (int t = 0; t < mesh.triangleCount(); t++) {
            assertTrue(mesh.areaNormal(t).z > 0.1, "triangle " + t);
        }
    }

    @Example
    void concaveQuadIsCutAtItsReflexCorner() {
        TriangleMesh mesh = cut(new double[] {0, 0, 0, 4, 0, 0, 1, 1, 0, 0, 4, 0});
        for (int t = 0; t < 2; t++) {
            assertTrue(mesh.areaNormal(t).z > 0, "triangle " + t);
        }
    }

    /** A frame whose hole is joined to the outside by a double edge, as flat faces with holes are often written. */
    @Example
    void keyholeIsCut() {
        TriangleMesh mesh = cut(new double[] {0, 0, 0, 4, 0, 0, 4, 4, 0, 0, 4, 0, 0, 0, 0, 1, 1, 0, 1, 3, 0, 3, 3, 0, 3,
            1, 0, 1, 1, 0});
        assertEquals(12, mesh.area(), 1e-12);
    }

    @Example
    void hourglassIsCountedAsAwkward() {
        double[] xyz = {0, 0, 0, 2, 2, 0, 2, 0, 0, 0, 2, 0};
        PolygonTriangulator triangulator = new PolygonTriangulator(xyz);
        triangulator.triangulate(new int[] {0, 1, 2, 3}, 0, 4, new int[6], 0);
        assertEquals(1, triangulator.awkward());
    }
}
