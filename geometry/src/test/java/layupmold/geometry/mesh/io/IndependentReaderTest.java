package layupmold.geometry.mesh.io;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.stream.Stream;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shapes.Shapes;
import layupmold.geometry.shapes.Soups;
import org.apache.commons.geometry.euclidean.threed.Triangle3D;
import org.apache.commons.geometry.euclidean.threed.Vector3D;
import org.apache.commons.geometry.euclidean.threed.mesh.SimpleTriangleMesh;
import org.apache.commons.geometry.io.core.input.GeometryInput;
import org.apache.commons.geometry.io.core.input.StreamGeometryInput;
import org.apache.commons.geometry.io.core.output.StreamGeometryOutput;
import org.apache.commons.geometry.io.euclidean.threed.GeometryFormat3D;
import org.apache.commons.geometry.io.euclidean.threed.IO3D;
import org.apache.commons.numbers.core.Precision;
import org.junit.jupiter.api.Test;

/** Held against Apache Commons Geometry's STL and OBJ formats, which share no code with ours. */
class IndependentReaderTest {

    private static final Precision.DoubleEquivalence PRECISION = Precision.doubleEquivalenceOfEpsilon(1e-12);

    private static byte[] written(TriangleMesh mesh, GeometryFormat3D format) {
        SimpleTriangleMesh.Builder builder = SimpleTriangleMesh.builder(PRECISION);
        for (int v = 0; v < mesh.vertexCount(); v++) {
            builder.addVertex(Vector3D.of(mesh.xyz()[3 * v], mesh.xyz()[3 * v + 1], mesh.xyz()[3 * v + 2]));
        }
        for (int t = 0; t < mesh.triangleCount(); t++) {
            builder.addFace(mesh.triangles()[3 * t], mesh.triangles()[3 * t + 1], mesh.triangles()[3 * t + 2]);
        }
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        IO3D.write(builder.build(), new StreamGeometryOutput(out, null, StandardCharsets.UTF_8), format);
        return out.toByteArray();
    }

    private static List<Triangle3D> readByOther(byte[] bytes, GeometryFormat3D format) {
        GeometryInput input = new StreamGeometryInput(new ByteArrayInputStream(bytes), null, StandardCharsets.UTF_8);
        try (Stream<Triangle3D> triangles = IO3D.triangles(input, format, PRECISION)) {
            return triangles.toList();
        }
    }

    private static void assertSame(TriangleMesh expected, TriangleMesh actual, double tolerance) {
        assertEquals(expected.triangleCount(), actual.triangleCount());
        for (int t = 0; t < expected.triangleCount(); t++) {
            for (int k = 0; k < 3; k++) {
                assertEquals(0, expected.corner(t, k).distance(actual.corner(t, k)), tolerance, "triangle " + t);
            }
        }
    }

    @Test
    void weReadWhatTheOtherWrites() {
        TriangleMesh ball = Shapes.sphere(30, 20);
        // The other's OBJ has six decimals, its STL is text by default.
        assertSame(ball, Readings.read(written(ball, GeometryFormat3D.OBJ)).mesh(), 1e-5);
        assertSame(ball, Readings.read(written(ball, GeometryFormat3D.STL)).mesh(), 1e-5);
    }

    @Test
    void theOtherReadsWhatWeWrite() {
        TriangleMesh ball = Soups.moved(Shapes.sphere(30, 20), 5, -7, 100);
        List<Triangle3D> triangles = readByOther(StlReaderTest.binary(ball, "ours"), GeometryFormat3D.STL);
        assertEquals(ball.triangleCount(), triangles.size());
        for (int t = 0; t < triangles.size(); t++) {
            Triangle3D triangle = triangles.get(t);
            Vector3D centre = triangle.getCentroid();
            assertEquals(0, ball.centroid(t).distance(centre.getX(), centre.getY(), centre.getZ()), 1e-4);
            Vector3D normal = triangle.getPlane().getNormal();
            assertEquals(1, ball.areaNormal(t).normalize().dot(normal.getX(), normal.getY(), normal.getZ()), 1e-4);
        }
    }
}
