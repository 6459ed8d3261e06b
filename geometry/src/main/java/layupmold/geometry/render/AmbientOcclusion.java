package layupmold.geometry.render;

import layupmold.geometry.parallel.Parallel;

/**
 * A cheap sense of depth from the depth buffer alone: hollows get darker, ridges a little lighter.
 *
 * <p>Depth is compared at pairs of opposite points around each pixel; a pair's mean cancels the surface's tilt, so a
 * plane stays untouched however it lies. Works on one sample in four each way and is read back smoothly.
 */
final class AmbientOcclusion {

    private static final int STEP = 4;
    private static final int PAIRS = 8;
    /** How much of a ridge's sharpness lightens it, against a hollow's darkening. */
    private static final double RIDGE_SHARE = 0.18;
    private static final double[] RADII = {0.012, 0.045};

    private final int width;
    private final int height;
    private final float[] shade;

    AmbientOcclusion(VisibilityBuffer buffer, Projection projection) {
        width = Math.max(1, buffer.width / STEP);
        height = Math.max(1, buffer.height / STEP);
        float[] depth = depths(buffer, projection);
        float[] raw = new float[width * height];
        Parallel.forRanges(height, 16, (band, from, to) -> {
            for (int y = from; y < to; y++) {
                for (int x = 0; x < width; x++) {
                    raw[y * width + x] = shadeAt(depth, x, y, projection);
                }
            }
        });
        shade = smoothed(raw, depth, 0.02 * projection.radius);
    }

    /** Factor on the light at a sample, about 0.4 to 1.15. */
    double at(double sampleX, double sampleY) {
        double x = Math.max(0, Math.min(width - 1.0001, sampleX / STEP - 0.5));
        double y = Math.max(0, Math.min(height - 1.0001, sampleY / STEP - 0.5));
        int ix = (int) x;
        int iy = (int) y;
        int right = Math.min(width - 1, ix + 1);
        int below = Math.min(height - 1, iy + 1);
        double fx = x - ix;
        double fy = y - iy;
        double upper = shade[iy * width + ix] * (1 - fx) + shade[iy * width + right] * fx;
        double lower = shade[below * width + ix] * (1 - fx) + shade[below * width + right] * fx;
        return upper * (1 - fy) + lower * fy;
    }

    private float[] depths(VisibilityBuffer buffer, Projection projection) {
        float[] depth = new float[width * height];
        for (int y = 0; y < height; y++) {
            for (int x = 0; x < width; x++) {
                int sample = (y * STEP + STEP / 2) * buffer.width + x * STEP + STEP / 2;
                boolean empty = buffer.triangle[sample] == VisibilityBuffer.NOTHING;
                depth[y * width + x] = empty ? Float.NaN : (float) projection.depth(buffer.nearness[sample]);
            }
        }
        return depth;
    }

    private float shadeAt(float[] depth, int x, int y, Projection projection) {
        double own = depth[y * width + x];
        if (Double.isNaN(own)) {
            return 1;
        }
        double darker = 0;
        for (double share : RADII) {
            double reach = share * 2 * projection.radius;
            double pixels = reach * projection.scale / STEP;
            for (int k = 0; k < PAIRS; k++) {
                // A turn that differs between neighbours and is evened out by the smoothing.
                double angle = Math.PI * (k + 0.25 * (x & 3) / 4.0 + (y & 3) / 4.0) / PAIRS;
                double length = pixels * (0.35 + 0.65 * ((k * 5 & 7) + 0.5) / PAIRS);
                double dx = length * Math.cos(angle);
                double dy = length * Math.sin(angle);
                darker += hollowness(own, depthAt(depth, x + dx, y + dy), depthAt(depth, x - dx, y - dy), reach);
            }
        }
        double mean = darker / (PAIRS * RADII.length);
        return (float) Math.max(0.4, Math.min(1.15, 1 - 2.2 * mean));
    }

    /** Positive in a hollow, where the mean of both neighbours stands nearer to the camera; a plane's tilt cancels. */
    private static double hollowness(double own, double here, double there, double reach) {
        double nearer = (own - (here + there) / 2) / reach;
        if (Double.isNaN(nearer)) {
            return 0;
        }
        if (nearer < 0) {
            return RIDGE_SHARE * Math.max(-1, nearer);
        }
        // Something far in front is another body, not the wall of a hollow.
        return nearer < 1 ? nearer : Math.max(0, 2 - nearer);
    }

    /** NaN outside the picture and where nothing is. */
    private double depthAt(float[] depth, double x, double y) {
        int ix = (int) Math.round(x);
        int iy = (int) Math.round(y);
        return ix < 0 || iy < 0 || ix >= width || iy >= height ? Double.NaN : depth[iy * width + ix];
    }

    private float[] smoothed(float[] raw, float[] depth, double tolerance) {
        float[] out = new float[raw.length];
        Parallel.forRanges(height, 16, (band, from, to) -> {
            for (int y = from; y < to; y++) {
                for (int x = 0; x < width; x++) {
                    out[y * width + x] = meanNear(raw, depth, x, y, tolerance);
                }
            }
        });
        return out;
    }

    private float meanNear(float[] raw, float[] depth, int x, int y, double tolerance) {
        double own = depth[y * width + x];
        double sum = 0;
        int count = 0;
        for (int j = Math.max(0, y - 2); j <= Math.min(height - 1, y + 2); j++) {
            for (int i = Math.max(0, x - 2); i <= Math.min(width - 1, x + 2); i++) {
                double other = depth[j * width + i];
                // A pixel outside every mesh takes its neighbours' shade, so that edges are not washed out.
                boolean alike = Double.isNaN(own) ? !Double.isNaN(other) : Math.abs(other - own) <= tolerance;
                if (alike) {
                    sum += raw[j * width + i];
                    count++;
                }
            }
        }
        return count == 0 ? 1 : (float) (sum / count);
    }
}
