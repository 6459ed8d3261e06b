package layupmold.geometry.render;

import java.awt.image.BufferedImage;
import java.util.Arrays;
import layupmold.geometry.parallel.Parallel;
import org.joml.Vector3d;

/**
 * Draws scenes without a display, a graphics card or fonts on the machine.
 *
 * <p>Triangles go through a depth buffer with 2 × 2 samples a pixel; each triangle seen in a pixel is shaded once. The
 * same scene gives the same pixels on any number of threads. Time is linear in pixels and triangles: 1600 × 1200 with
 * 200 000 triangles takes well under a second on two cores. Memory is about 35 bytes a pixel and 150 a triangle.
 */
public final class Renderer {

    private static final int SAMPLES = 2;
    private static final int BACKGROUND = 0xE7E3DD;
    private static final double SHADOW = 0.62;

    private final Scene scene;
    private final Projection projection;
    private final VisibilityBuffer buffer;
    private final Shader shader;
    private final GroundShadow shadow;
    private final int width;
    private final int height;

    private Renderer(Scene scene) {
        this.scene = scene;
        width = scene.size().widthPx();
        height = scene.size().heightPx();
        projection = Projection.fit(scene.camera(), scene.items(), window(scene));
        SceneArrays arrays = new SceneArrays(scene.items(), projection);
        buffer = new VisibilityBuffer(SAMPLES * width, SAMPLES * height, arrays.projected, arrays.corners);
        shader = new Shader(arrays, buffer, projection, scene.lighting(), scene.lines());
        shadow = scene.ground() ? new GroundShadow(scene.items()) : null;
    }

    /** The picture of a scene, TYPE_INT_RGB. */
    public static BufferedImage render(Scene scene) {
        Renderer renderer = new Renderer(scene);
        BufferedImage image = new BufferedImage(renderer.width, renderer.height, BufferedImage.TYPE_INT_RGB);
        int[] pixels = new int[renderer.width * renderer.height];
        Parallel.forRanges(renderer.height, 16, (band, from, to) -> renderer.fillRows(pixels, from, to));
        image.setRGB(0, 0, renderer.width, renderer.height, pixels, 0, renderer.width);
        Annotation.draw(image, scene, renderer.projection, renderer.buffer, SAMPLES);
        return image;
    }

    /**
     * Where a point of the scene falls in its picture, pixels from the left and from the top; for callers that draw on
     * top. O(vertices), since the view is fitted to the scene.
     */
    public static double[] pixelOf(Scene scene, Vector3d point) {
        double[] at = new double[3];
        Projection.fit(scene.camera(), scene.items(), window(scene)).project(point.x, point.y, point.z, at, 0);
        return new double[] {at[0] / SAMPLES, at[1] / SAMPLES};
    }

    /** Pixels a millimetre in the plane through the middle of the scene; exact everywhere without perspective. */
    public static double pixelsPerMm(Scene scene) {
        return Projection.fit(scene.camera(), scene.items(), window(scene)).scale / SAMPLES;
    }

    private static Projection.Window window(Scene scene) {
        double wide = scene.size().widthPx();
        double high = scene.size().heightPx();
        double margin = 0.04 * wide;
        double top = Annotation.headerPx(scene) + margin;
        double bottom = high - Annotation.footerPx(scene) - margin;
        return new Projection.Window(SAMPLES * margin, SAMPLES * top,
                Math.max(1, SAMPLES * (wide - 2 * margin)), Math.max(1, SAMPLES * (bottom - top)));
    }

    private void fillRows(int[] pixels, int from, int to) {
        Shader.Scratch scratch = new Shader.Scratch();
        double[] sum = new double[3];
        double[] ray = new double[6];
        for (int y = from; y < to; y++) {
            for (int x = 0; x < width; x++) {
                Arrays.fill(sum, 0);
                int covered = addSamples(x, y, scratch, sum);
                if (covered < SAMPLES * SAMPLES) {
                    addBackground(x, y, 1 - (double) covered / (SAMPLES * SAMPLES), ray, sum);
                }
                pixels[y * width + x] = Oklab.toByte(sum[0]) << 16 | Oklab.toByte(sum[1]) << 8 | Oklab.toByte(sum[2]);
            }
        }
    }

    /** Adds what is seen in a pixel; returns how many samples hit something. */
    private int addSamples(int x, int y, Shader.Scratch scratch, double[] sum) {
        int covered = 0;
        int done = 0;
        for (int s = 0; s < SAMPLES * SAMPLES; s++) {
            int triangle = triangleAt(x, y, s);
            if (triangle == VisibilityBuffer.NOTHING) {
                continue;
            }
            covered++;
            if ((done >> s & 1) != 0) {
                continue;
            }
            double weight = 0;
            for (int other = s; other < SAMPLES * SAMPLES; other++) {
                if (triangleAt(x, y, other) == triangle) {
                    done |= 1 << other;
                    weight += shader.line(SAMPLES * x + other % SAMPLES, SAMPLES * y + other / SAMPLES);
                }
            }
            shader.shade(SAMPLES * x + s % SAMPLES, SAMPLES * y + s / SAMPLES, weight / (SAMPLES * SAMPLES), scratch, sum);
        }
        return covered;
    }

    private int triangleAt(int x, int y, int sample) {
        return buffer.triangle[(SAMPLES * y + sample / SAMPLES) * buffer.width + SAMPLES * x + sample % SAMPLES];
    }

    private void addBackground(int x, int y, double weight, double[] ray, double[] sum) {
        double light = weight * (shadow == null ? 1 : 1 - SHADOW * groundDarkness(x, y, ray));
        sum[0] += light * Oklab.linearOfByte(BACKGROUND >> 16 & 255);
        sum[1] += light * Oklab.linearOfByte(BACKGROUND >> 8 & 255);
        sum[2] += light * Oklab.linearOfByte(BACKGROUND & 255);
    }

    private double groundDarkness(int x, int y, double[] ray) {
        projection.ray(SAMPLES * (x + 0.5), SAMPLES * (y + 0.5), ray);
        if (ray[5] >= -1e-6) {
            return 0;
        }
        double along = (shadow.groundZ - ray[2]) / ray[5];
        return shadow.at(ray[0] + along * ray[3], ray[1] + along * ray[4]);
    }
}
