package layupmold.geometry.render;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import de.javagl.jgltf.model.AccessorFloatData;
import de.javagl.jgltf.model.AccessorIntData;
import de.javagl.jgltf.model.AccessorShortData;
import de.javagl.jgltf.model.GltfModel;
import de.javagl.jgltf.model.MeshPrimitiveModel;
import de.javagl.jgltf.model.io.GltfModelReader;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.nio.ByteBuffer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import javax.imageio.ImageIO;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.outsiders.Node;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class GlbWriterTest {

    private static final TriangleMesh SPHERE = Shapes.sphere(24, 30, 0, 0, 30);

    @TempDir
    private Path folder;

    /** Khronos glTF Validator 2.0.0-dev.3.10 (npm gltf-validator). */
    @Test
    void theKhronosValidatorFindsNothing() throws Exception {
        for (int layers : new int[] {0, 1, 4, 8}) {
            Path file = folder.resolve("mold" + layers + ".glb");
            Files.write(file, GlbWriter.write(SPHERE, layers(layers)));
            String report = Node.run("validate-gltf.mjs", "gltf-validator", file.toString());
            assertTrue(report.contains("\"numErrors\":0"), report);
            assertTrue(report.contains("\"numWarnings\":0"), report);
            assertTrue(report.contains("\"totalTriangleCount\":" + SPHERE.triangleCount()), report);
        }
    }

    /** jgltf-model 2.0.4 as the independent reader. */
    @Test
    void positionsAndTrianglesReadBack() throws Exception {
        MeshPrimitiveModel primitive = primitive(read(GlbWriter.write(SPHERE, layers(2))));
        AccessorFloatData positions = (AccessorFloatData) primitive.getAttributes().get("POSITION").getAccessorData();
        AccessorIntData indices = (AccessorIntData) primitive.getIndices().getAccessorData();
        assertEquals(SPHERE.triangles().length, indices.getNumElements());
        for (int c = 0; c < SPHERE.triangles().length; c++) {
            for (int k = 0; k < 3; k++) {
                assertEquals((float) SPHERE.xyz()[3 * SPHERE.triangles()[c] + k], positions.get(indices.get(c), k));
            }
        }
    }

    @Test
    void eachMapShowsTheColourOfItsValue() throws Exception {
        List<MapLayer> layers = layers(3);
        GltfModel model = read(GlbWriter.write(SPHERE, layers));
        MeshPrimitiveModel primitive = primitive(model);
        AccessorIntData indices = (AccessorIntData) primitive.getIndices().getAccessorData();
        for (int k = 0; k < 3; k++) {
            BufferedImage texture = image(model, k);
            AccessorShortData coordinates = (AccessorShortData) primitive.getAttributes().get("TEXCOORD_" + k / 2).getAccessorData();
            for (int t = 0; t < SPHERE.triangleCount(); t += 13) {
                double at = 0;
                for (int corner = 0; corner < 3; corner++) {
                    at += (coordinates.get(indices.get(3 * t + corner), k % 2) & 0xFFFF) / 65535.0 / 3;
                }
                int texel = (int) Math.floor(at * 256);
                int seen = k % 2 == 0 ? texture.getRGB(texel, 0) : texture.getRGB(0, texel);
                float fraction = layers.get(k).fractions()[t];
                int[] colours = layers.get(k).colours();
                int wanted = Float.isNaN(fraction)
                        ? ColourMap.NO_VALUE : colours[Math.min(colours.length - 1, (int) (fraction * colours.length))];
                // Values are means around each vertex, so a triangle's own may differ a little.
                assertEquals(0, Oklab.ofRgb(wanted).distance(Oklab.ofRgb(seen)), 0.06, "layer " + k + " triangle " + t);
            }
        }
    }

    @Test
    void creasesSplitVerticesAndSmoothSurfacesDoNot() {
        SplitVertices smooth = new SplitVertices(SPHERE, List.of());
        assertEquals(SPHERE.vertexCount(), smooth.count);
        TriangleMesh cube = new TriangleMesh(
                new double[] {0, 0, 0, 1, 0, 0, 1, 1, 0, 0, 1, 0, 0, 0, 1, 1, 0, 1, 1, 1, 1, 0, 1, 1},
                new int[] {0, 2, 1, 0, 3, 2, 4, 5, 6, 4, 6, 7, 0, 1, 5, 0, 5, 4, 1, 2, 6, 1, 6, 5, 2, 3, 7, 2, 7, 6, 3, 0, 4,
                    3, 4, 7});
        assertEquals(24, new SplitVertices(cube, List.of()).count);
    }

    @Test
    void theSameMeshGivesTheSameBytes() {
        assertArrayEquals(GlbWriter.write(SPHERE, layers(4)), GlbWriter.write(SPHERE, layers(4)));
    }

    @Test
    void whatDoesNotFitIsRefused() {
        assertThrows(IllegalArgumentException.class, () -> GlbWriter.write(SPHERE, layers(9)));
        assertThrows(IllegalArgumentException.class,
                () -> GlbWriter.write(SPHERE, List.of(new MapLayer("short", new float[3], false, new int[] {0}))));
        assertThrows(IllegalArgumentException.class, () -> new MapLayer("a\"b", new float[0], false, new int[] {0}));
    }

    private static List<MapLayer> layers(int count) {
        float[] height = new float[SPHERE.triangleCount()];
        byte[] region = new byte[SPHERE.triangleCount()];
        for (int t = 0; t < height.length; t++) {
            height[t] = (float) SPHERE.centroid(t).z;
            region[t] = (byte) (SPHERE.centroid(t).x > 0 ? 1 : 0);
        }
        float[] partly = height.clone();
        for (int t = 0; t < partly.length; t++) {
            partly[t] = partly[t] < 20 ? Float.NaN : partly[t];
        }
        MapLayer[] all = new MapLayer[count];
        Arrays.setAll(all, k -> switch (k % 3) {
            case 0 -> MapLayer.ofValues("Height " + k, height, ValueScale.sequential("Height", "mm", 0, 60));
            case 1 -> MapLayer.ofRegions("Side " + k, region, new int[] {0x2F7F86, 0xD9A25F});
            default -> MapLayer.ofValues("Upper " + k, partly, ValueScale.about(30, "Height", "mm", 0, 60));
        });
        return List.of(all);
    }

    private static GltfModel read(byte[] glb) throws Exception {
        return new GltfModelReader().readWithoutReferences(new ByteArrayInputStream(glb));
    }

    private static MeshPrimitiveModel primitive(GltfModel model) {
        return model.getMeshModels().get(0).getMeshPrimitiveModels().get(0);
    }

    private static BufferedImage image(GltfModel model, int k) throws Exception {
        ByteBuffer data = model.getImageModels().get(k).getImageData();
        byte[] bytes = new byte[data.remaining()];
        data.get(bytes);
        return ImageIO.read(new ByteArrayInputStream(bytes));
    }
}
