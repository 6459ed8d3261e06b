package layupmold.geometry.render;

import java.util.Arrays;
import layupmold.geometry.parallel.Parallel;

/**
 * Which triangle is nearest at each sample of a picture, and how near.
 *
 * <p>Vertices are snapped to 1/256 of a sample and coverage is decided in integers, so triangles that share an edge
 * leave no gap between them. Bands of rows are filled in parallel, each by one thread and in triangle order; among
 * equally near triangles the first wins, so the result does not depend on the number of threads.
 */
final class VisibilityBuffer {

    static final int NOTHING = -1;

    private static final int SUBSAMPLE_BITS = 8;
    private static final int HALF_SAMPLE = 1 << SUBSAMPLE_BITS - 1;
    private static final int ROWS_A_BAND = 64;

    final int width;
    final int height;
    /** Triangle at sample {@code x + width * y}, or {@link #NOTHING}. */
    final int[] triangle;
    /** Nearness there; undefined where there is nothing. */
    final float[] nearness;

    private final int[] corners;
    private final long[] fixedX;
    private final long[] fixedY;
    private final float[] near;

    /**
     * @param projected sample x, sample y and nearness of each vertex
     * @param corners vertices of each triangle
     */
    VisibilityBuffer(int width, int height, double[] projected, int[] corners) {
        this.width = width;
        this.height = height;
        this.corners = corners;
        this.triangle = new int[width * height];
        this.nearness = new float[width * height];
        int n = projected.length / 3;
        fixedX = new long[n];
        fixedY = new long[n];
        near = new float[n];
        for (int v = 0; v < n; v++) {
            fixedX[v] = Math.round(projected[3 * v] * (1 << SUBSAMPLE_BITS));
            fixedY[v] = Math.round(projected[3 * v + 1] * (1 << SUBSAMPLE_BITS));
            near[v] = (float) projected[3 * v + 2];
        }
        Parallel.forRanges(height, ROWS_A_BAND, (band, from, to) -> fillBand(from, to));
    }

    private void fillBand(int from, int to) {
        Arrays.fill(triangle, from * width, to * width, NOTHING);
        Arrays.fill(nearness, from * width, to * width, Float.NEGATIVE_INFINITY);
        long top = ((long) from << SUBSAMPLE_BITS) + HALF_SAMPLE;
        long bottom = ((long) (to - 1) << SUBSAMPLE_BITS) + HALF_SAMPLE;
        for (int t = 0; t < corners.length / 3; t++) {
            long y0 = fixedY[corners[3 * t]];
            long y1 = fixedY[corners[3 * t + 1]];
            long y2 = fixedY[corners[3 * t + 2]];
            long least = Math.min(y0, Math.min(y1, y2));
            long most = Math.max(y0, Math.max(y1, y2));
            if (most >= top && least <= bottom) {
                fillTriangle(t, from, to, least, most);
            }
        }
    }

    private void fillTriangle(int t, int bandFrom, int bandTo, long least, long most) {
        int a = corners[3 * t];
        int b = corners[3 * t + 1];
        int c = corners[3 * t + 2];
        long area = (fixedX[b] - fixedX[a]) * (fixedY[c] - fixedY[a]) - (fixedX[c] - fixedX[a]) * (fixedY[b] - fixedY[a]);
        if (area == 0) {
            return;
        }
        if (area < 0) {
            int swap = b;
            b = c;
            c = swap;
            area = -area;
        }
        int top = Math.max(bandFrom, firstSample(least));
        int bottom = Math.min(bandTo - 1, lastSample(most));
        int left = Math.max(0, firstSample(Math.min(fixedX[a], Math.min(fixedX[b], fixedX[c]))));
        int right = Math.min(width - 1, lastSample(Math.max(fixedX[a], Math.max(fixedX[b], fixedX[c]))));
        if (top > bottom || left > right) {
            return;
        }
        // Edge functions, each zero on the edge opposite its vertex and growing inward.
        long startX = ((long) left << SUBSAMPLE_BITS) + HALF_SAMPLE;
        long startY = ((long) top << SUBSAMPLE_BITS) + HALF_SAMPLE;
        long rowA = edge(b, c, startX, startY);
        long rowB = edge(c, a, startX, startY);
        long rowC = edge(a, b, startX, startY);
        long stepXA = (fixedY[b] - fixedY[c]) << SUBSAMPLE_BITS;
        long stepXB = (fixedY[c] - fixedY[a]) << SUBSAMPLE_BITS;
        long stepXC = (fixedY[a] - fixedY[b]) << SUBSAMPLE_BITS;
        long stepYA = (fixedX[c] - fixedX[b]) << SUBSAMPLE_BITS;
        long stepYB = (fixedX[a] - fixedX[c]) << SUBSAMPLE_BITS;
        long stepYC = (fixedX[b] - fixedX[a]) << SUBSAMPLE_BITS;
        double nearA = near[a];
        double slopeB = (near[b] - nearA) / area;
        double slopeC = (near[c] - nearA) / area;
        for (int y = top; y <= bottom; y++) {
            long ea = rowA;
            long eb = rowB;
            long ec = rowC;
            int at = y * width + left;
            for (int x = left; x <= right; x++, at++) {
                if ((ea | eb | ec) >= 0) {
                    float n = (float) (nearA + slopeB * eb + slopeC * ec);
                    if (n > nearness[at]) {
                        nearness[at] = n;
                        triangle[at] = t;
                    }
                }
                ea += stepXA;
                eb += stepXB;
                ec += stepXC;
            }
            rowA += stepYA;
            rowB += stepYB;
            rowC += stepYC;
        }
    }

    private long edge(int from, int to, long x, long y) {
        return (fixedX[to] - fixedX[from]) * (y - fixedY[from]) - (fixedY[to] - fixedY[from]) * (x - fixedX[from]);
    }

    /** First sample whose centre is not left of (above) a fixed-point coordinate. */
    private static int firstSample(long fixed) {
        return (int) ((fixed + HALF_SAMPLE - 1) >> SUBSAMPLE_BITS);
    }

    /** Last sample whose centre is not right of (below) a fixed-point coordinate. */
    private static int lastSample(long fixed) {
        return (int) ((fixed - HALF_SAMPLE) >> SUBSAMPLE_BITS);
    }
}
