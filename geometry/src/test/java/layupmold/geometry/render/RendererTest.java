package layupmold.geometry.render;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.ForkJoinPool;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;

class RendererTest {

    private static final int BACKGROUND = 0xE7E3DD;
    private static final Camera DOWN = new Camera(new Vector3d(0, 0, -1), new Vector3d(0, 1, 0), 0);

    @Test
    void aSphereCoversPiRSquared() {
        Item sphere = new Item(Shapes.sphere(200, 50, 3, -4, 9), new Paint.Plain(0));
        Scene scene = Scene.of("", "", Camera.from(25, 31).orthographic(), sphere).withoutLines()
                .asMap(new Legend.None());
        BufferedImage image = Renderer.render(scene);
        double expected = Math.PI * Math.pow(50 * Renderer.pixelsPerMm(scene), 2);
        assertEquals(1, coveredPixels(image) / expected, 5e-4);
    }

    @Test
    void perspectiveShowsASphereAsItsTangentCone() {
        Item sphere = new Item(Shapes.sphere(200, 50, 0, 0, 0), new Paint.Plain(0));
        double half = Math.toRadians(15);
        Scene scene = Scene.of("", "", new Camera(new Vector3d(1, 0, 0), new Vector3d(0, 0, 1), 30), sphere).withoutLines()
                .asMap(new Legend.None());
        // The camera is placed where the bounding sphere, the cube's corners' radius √3 R, fills the field of view.
        double distance = 50 * Math.sqrt(3) / Math.sin(half) * 1.0001;
        double seenRadiusMm = distance * Math.tan(Math.asin(50 / distance));
        double expected = Math.PI * Math.pow(seenRadiusMm * Renderer.pixelsPerMm(scene), 2);
        assertEquals(1, coveredPixels(Renderer.render(scene)) / expected, 1e-3);
    }

    @Test
    void theSceneFillsThePictureUpToItsMargin() {
        Item plate = new Item(Shapes.plate(1, -40, -10, 40, 10, 0), new Paint.Plain(0x202020));
        Scene scene = Scene.of("", "", DOWN, plate).sized(1000, 800);
        BufferedImage image = Renderer.render(scene);
        int row = 400;
        assertEquals(BACKGROUND, image.getRGB(38, row) & 0xFFFFFF);
        assertNotEquals(BACKGROUND, image.getRGB(41, row) & 0xFFFFFF);
        assertNotEquals(BACKGROUND, image.getRGB(958, row) & 0xFFFFFF);
        assertEquals(BACKGROUND, image.getRGB(961, row) & 0xFFFFFF);
        assertArrayEquals(new double[] {40, 400}, Renderer.pixelOf(scene, new Vector3d(-40, 0, 0)), 1e-9);
    }

    @Test
    void mapColoursKeepTheirHueUnderTheMapLight() {
        TriangleMesh mesh = Shapes.plate(8, 0, 0, 80, 40, 0);
        float[] values = new float[mesh.vertexCount()];
        for (int v = 0; v < values.length; v++) {
            values[v] = (float) mesh.xyz()[3 * v];
        }
        ValueScale scale = ValueScale.sequential("Length", "mm", 0, 80);
        Scene scene = Scene.of("", "", DOWN, new Item(mesh, new Paint.VertexValues(values, scale))).withoutLines()
                .asMap(new Legend.Scale(scale));
        BufferedImage image = Renderer.render(scene);
        for (double x = 5; x < 80; x += 10) {
            double[] at = Renderer.pixelOf(scene, new Vector3d(x, 21, 0));
            int seen = image.getRGB((int) at[0], (int) at[1]) & 0xFFFFFF;
            int wanted = scale.colour(x);
            for (int shift = 0; shift <= 16; shift += 8) {
                double light = Oklab.linearOfByte(wanted >> shift & 255);
                // A surface that faces the camera is lit to 0.72·0.78 + 0.26·0.744 + 0.06·0.597 = 0.79.
                assertEquals(0.79 * light, Oklab.linearOfByte(seen >> shift & 255), 0.015, "at x = " + x);
            }
        }
    }

    @Test
    void theNearerMeshHidesTheFartherWhateverTheirOrder() {
        Item low = new Item(Shapes.plate(3, 0, 0, 60, 40, 0), new Paint.Plain(0xC03020));
        Item high = new Item(Shapes.plate(5, 20, 10, 40, 30, 5), new Paint.Plain(0x2030C0));
        for (Item[] items : new Item[][] {{low, high}, {high, low}}) {
            Scene scene = Scene.of("", "", DOWN, items);
            BufferedImage image = Renderer.render(scene);
            int middle = pixel(image, scene, new Vector3d(31, 21, 5));
            int side = pixel(image, scene, new Vector3d(7, 21, 0));
            assertTrue((middle & 255) > (middle >> 16 & 255), "the middle is blue");
            assertTrue((side & 255) < (side >> 16 & 255), "the side is red");
        }
    }

    @Test
    void aClosedMeshHasNoHoles() {
        Item sphere = new Item(Shapes.sphere(150, 50, 0, 0, 0), new Paint.Plain(0x303030));
        Scene scene = Scene.of("", "", Camera.from(10, 20).orthographic(), sphere).withoutLines();
        BufferedImage image = Renderer.render(scene);
        double radius = 50 * Renderer.pixelsPerMm(scene);
        double[] middle = Renderer.pixelOf(scene, new Vector3d());
        for (int y = 0; y < image.getHeight(); y++) {
            for (int x = 0; x < image.getWidth(); x++) {
                if (Math.hypot(x + 0.5 - middle[0], y + 0.5 - middle[1]) < radius - 3) {
                    assertTrue((image.getRGB(x, y) & 255) < 0x70, "bright pixel at " + x + ", " + y);
                }
            }
        }
    }

    @Test
    void thePictureDoesNotDependOnTheNumberOfThreads() throws Exception {
        Scene scene = busyScene();
        List<byte[]> pictures = new ArrayList<>();
        for (int threads : new int[] {1, 2, 5}) {
            ForkJoinPool pool = new ForkJoinPool(threads);
            try {
                pictures.add(pool.submit(() -> PngWriter.toBytes(Renderer.render(scene))).get());
            } finally {
                pool.shutdown();
            }
        }
        assertArrayEquals(pictures.get(0), pictures.get(1));
        assertArrayEquals(pictures.get(0), pictures.get(2));
    }

    @Test
    void aStandingBodyDarkensTheGroundBesideItAndNotFarAway() {
        Item ball = new Item(Shapes.sphere(40, 20, 0, 0, 20), new Paint.Plain(0x808080));
        Item post = new Item(Shapes.sphere(10, 1, 200, 0, 1), new Paint.Plain(0x808080));
        Scene scene = Scene.of("", "", Camera.from(-90, 60), ball, post).onGround();
        BufferedImage image = Renderer.render(scene);
        int beside = pixel(image, scene, new Vector3d(24, 3, 0)) & 255;
        int far = pixel(image, scene, new Vector3d(120, 3, 0)) & 255;
        assertTrue(beside < far - 15, beside + " against " + far);
        assertEquals(BACKGROUND & 255, far, 3);
    }

    @Test
    void noFontLibraryIsLoaded() throws Exception {
        Renderer.render(busyScene());
        Path maps = Path.of("/proc/self/maps");
        Assumptions.assumeTrue(Files.exists(maps), "only Linux tells");
        String loaded = Files.readString(maps);
        assertTrue(loaded.contains("libjava"), "the list of libraries is readable");
        assertTrue(!loaded.contains("libfontmanager") && !loaded.contains("libfreetype"), "a font library was loaded");
    }

    @Test
    void paintMadeForAnotherMeshIsRefused() {
        TriangleMesh mesh = Shapes.plate(2, 0, 0, 1, 1, 0);
        ValueScale scale = ValueScale.sequential("", "mm", 0, 1);
        assertThrows(IllegalArgumentException.class, () -> new Item(mesh, new Paint.TriangleValues(new float[7], scale)));
        assertThrows(IllegalArgumentException.class, () -> new Item(mesh, new Paint.VertexValues(new float[8], scale)));
        assertThrows(IllegalArgumentException.class,
                () -> Scene.of("", "", DOWN, new Item(new TriangleMesh(new double[0], new int[0]), new Paint.Plain(0))));
    }

    private static Scene busyScene() {
        TriangleMesh mesh = Shapes.sphere(60, 30, 0, 0, 30);
        float[] values = new float[mesh.triangleCount()];
        for (int t = 0; t < values.length; t++) {
            values[t] = t % 17 == 0 ? Float.NaN : (float) mesh.centroid(t).z;
        }
        ValueScale scale = ValueScale.about(12, "Height", "mm", 0, 60);
        return Scene.of("Heron mask", "from the left", Camera.from(40, 25), new Item(mesh, new Paint.TriangleValues(values, scale)),
                        new Item(Shapes.plate(4, 20, -30, 80, 30, 10), new Paint.Plain(0xB0A090)))
                .onGround().asMap(new Legend.Scale(scale))
                .marking(List.of(new Marker(new Vector3d(0, 0, 60), "1"), new Marker(new Vector3d(0, -20, 0), "2")))
                .sized(800, 600);
    }

    private static int pixel(BufferedImage image, Scene scene, Vector3d point) {
        double[] at = Renderer.pixelOf(scene, point);
        return image.getRGB((int) at[0], (int) at[1]) & 0xFFFFFF;
    }

    /** Area in pixels of something black, rim pixels counted by the share of background they let through. */
    private static double coveredPixels(BufferedImage image) {
        double area = 0;
        for (int y = 0; y < image.getHeight(); y++) {
            for (int x = 0; x < image.getWidth(); x++) {
                area += 1 - Oklab.linearOfByte(image.getRGB(x, y) & 255) / Oklab.linearOfByte(BACKGROUND & 255);
            }
        }
        return area;
    }
}
