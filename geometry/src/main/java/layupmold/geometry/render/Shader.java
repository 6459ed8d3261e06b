package layupmold.geometry.render;

import layupmold.geometry.mesh.CornerNormals;
import org.joml.Vector3d;

/** The colour of one sample: paint, light, depth cue and edge lines, in linear light. Safe to use from many threads. */
final class Shader {

    private static final double SILHOUETTE_LINE = 0.42;
    private static final double CREASE_LINE = 0.72;
    /** Depth may bend by so many samples' width between neighbours before it counts as a step. */
    private static final double STEP_IN_SAMPLES = 6;
    private static final double BACK_SIDE = 0.55;
    private static final double CREASE_COSINE = Math.cos(Math.toRadians(CornerNormals.CREASE_DEG));

    private final SceneArrays arrays;
    private final VisibilityBuffer buffer;
    private final Projection projection;
    private final AmbientOcclusion occlusion;
    private final Lighting lighting;
    private final boolean lines;
    private final Vector3d key;
    private final Vector3d fill;
    private final Vector3d half;
    private final float[] faceNormals;
    private final double stepNearness;

    Shader(SceneArrays arrays, VisibilityBuffer buffer, Projection projection, Lighting lighting, boolean lines) {
        this.arrays = arrays;
        this.buffer = buffer;
        this.projection = projection;
        this.lighting = lighting;
        this.lines = lines;
        occlusion = new AmbientOcclusion(buffer, projection);
        key = towards(-0.48, 0.55, 0.80);
        fill = towards(0.80, -0.10, 0.60);
        half = new Vector3d(key).sub(projection.forward).normalize();
        faceNormals = arrays.faceNormals();
        double stepMm = STEP_IN_SAMPLES / projection.scale;
        stepNearness = projection.distance == 0 ? stepMm : stepMm / (projection.distance * projection.distance);
    }

    /** Room for one thread's intermediate results. */
    static final class Scratch {
        private final double[] b = new double[3];
        private final double[] n = new double[3];
    }

    /** Adds the light of the triangle seen at sample (x, y), times {@code weight}, to {@code sum}. */
    void shade(int x, int y, double weight, Scratch scratch, double[] sum) {
        int triangle = buffer.triangle[y * buffer.width + x];
        int item = arrays.itemOf(triangle);
        boolean front = arrays.barycentric(triangle, x + 0.5, y + 0.5, projection.distance != 0, scratch.b);
        arrays.normal(item, triangle, scratch.b, scratch.n);
        double light = front ? 1 : BACK_SIDE;
        double sign = front ? 1 : -1;
        double nx = sign * scratch.n[0];
        double ny = sign * scratch.n[1];
        double nz = sign * scratch.n[2];
        light *= (1 + lighting.depthCue() * (occlusion.at(x + 0.5, y + 0.5) - 1)) * (
                lighting.sky() * (0.78 + 0.22 * (nx * projection.up.x + ny * projection.up.y + nz * projection.up.z))
                + lighting.key() * Math.max(0, nx * key.x + ny * key.y + nz * key.z)
                + lighting.fill() * Math.max(0, nx * fill.x + ny * fill.y + nz * fill.z));
        double shine = lighting.gloss() == 0
                ? 0 : lighting.gloss() * power32(Math.max(0, nx * half.x + ny * half.y + nz * half.z));
        int rgb = arrays.colour(item, triangle, scratch.b);
        sum[0] += weight * (light * Oklab.linearOfByte(rgb >> 16 & 255) + shine);
        sum[1] += weight * (light * Oklab.linearOfByte(rgb >> 8 & 255) + shine);
        sum[2] += weight * (light * Oklab.linearOfByte(rgb & 255) + shine);
    }

    /** Factor on a sample's light where an outline or crease runs through it, else 1. */
    double line(int x, int y) {
        if (!lines || x == 0 || y == 0 || x == buffer.width - 1 || y == buffer.height - 1) {
            return 1;
        }
        int at = y * buffer.width + x;
        double across = lineBetween(at, at - 1, at + 1);
        return across == SILHOUETTE_LINE ? across : Math.min(across, lineBetween(at, at - buffer.width, at + buffer.width));
    }

    private double lineBetween(int at, int before, int after) {
        int own = buffer.triangle[at];
        int a = buffer.triangle[before];
        int b = buffer.triangle[after];
        if (own == a && own == b) {
            return 1;
        }
        if (a == VisibilityBuffer.NOTHING || b == VisibilityBuffer.NOTHING) {
            return SILHOUETTE_LINE;
        }
        double n = buffer.nearness[at];
        if (2 * n - buffer.nearness[before] - buffer.nearness[after] > stepNearness) {
            return SILHOUETTE_LINE;
        }
        return isCrease(own, a) || isCrease(own, b) ? CREASE_LINE : 1;
    }

    private boolean isCrease(int t, int other) {
        if (t == other) {
            return false;
        }
        int i = 3 * t;
        int j = 3 * other;
        return faceNormals[i] * faceNormals[j] + faceNormals[i + 1] * faceNormals[j + 1]
                + faceNormals[i + 2] * faceNormals[j + 2] < CREASE_COSINE;
    }

    private Vector3d towards(double right, double up, double back) {
        return new Vector3d(projection.right).mul(right)
                .add(new Vector3d(projection.up).mul(up))
                .sub(new Vector3d(projection.forward).mul(back))
                .normalize();
    }

    private static double power32(double x) {
        double x2 = x * x;
        double x4 = x2 * x2;
        double x8 = x4 * x4;
        return x8 * x8 * x8 * x8;
    }
}
