package layupmold.geometry.flange;

import java.util.Arrays;
import layupmold.geometry.parallel.Parallel;

/**
 * The strip of triangles between the perimeter and the flange's first ring, each triangle holding an edge of one and a
 * vertex of the other.
 *
 * <p>No edge of it joins two vertices of the perimeter, so none can be an edge of the tool surface already, whatever
 * the perimeter looks like seen along the pull: where it runs up the pull, turns back, or where the surface hangs over.
 * Of all strips it is the one whose rungs are shortest and whose triangles keep to the draft, by dynamic programming
 * (Fuchs, Kedem and Uselton 1977), looking at a window of the ring only, and there only at what costs no more than a
 * strip found before: O(n) time and memory for n vertices and a fixed window.
 */
final class PerimeterBand {

    private static final int WINDOW = 1024;
    /** A strip found in a window this wide says what the shortest costs at most. */
    private static final int NARROW_WINDOW = 64;
    /** Length of rung that one square millimetre short of draft outweighs. */
    private static final double DRAFT_WEIGHT = 500;

    private final double[] perimeter;
    private final double[] ring;
    private final double leastDraftSine;
    private final int n;
    private final int m;
    private final int width;
    private final double most;
    private final int[] windowStart;
    /** For each perimeter vertex and ring vertex of its window: did the best path come along the ring? */
    private final boolean[][] alongRing;
    /** First column of the row before that costs no more than {@link #most}, and the one beyond the last. */
    private int liveFrom;
    private int liveTo;

    /**
     * @param perimeter ends where it begins, as the ring does
     * @param most what the shortest strip costs at most
     */
    private PerimeterBand(double[] perimeter, double[] ring, double leastDraftSine, int window, double most) {
        this.leastDraftSine = leastDraftSine;
        this.perimeter = perimeter;
        this.ring = ring;
        n = perimeter.length / 3 - 1;
        m = ring.length / 3 - 1;
        width = Math.min(m + 1, window);
        this.most = most;
        windowStart = new int[n + 1];
        alongRing = new boolean[n + 1][];
    }

    /**
     * @param perimeter x, y, z of its vertices, counter-clockwise in plan
     * @param ring x, y, z of the ring around it, counter-clockwise in plan
     * @param draftDeg what triangles keep to where they can, in exchange for longer rungs
     * @return corners of triangles that face up: perimeter vertices by number, ring vertex j as {@code n + j}
     */
    static int[] triangles(double[] perimeter, double[] ring, double draftDeg) {
        int start = outermost(perimeter);
        int startOnRing = nearest(ring, perimeter, start);
        double[] from = turned(perimeter, start);
        double[] to = turned(ring, startOnRing);
        double sine = Math.sin(Math.toRadians(draftDeg));
        double most = new PerimeterBand(from, to, sine, NARROW_WINDOW, Double.POSITIVE_INFINITY).cost();
        PerimeterBand shortest = new PerimeterBand(from, to, sine, WINDOW, most);
        shortest.cost();
        int[] band = shortest.path();
        int n = perimeter.length / 3;
        int m = ring.length / 3;
        for (int i = 0; i < band.length; i++) {
            band[i] = band[i] < n ? (band[i] + start) % n : n + (band[i] - n + startOnRing) % m;
        }
        return band;
    }

    /** Of the shortest strip, or infinity if the windows of two vertices do not meet. */
    private double cost() {
        double perimeterLength = length(perimeter);
        double ringLength = length(ring);
        double walked = 0;
        double walkedRing = 0;
        int at = 0;
        double[] before = new double[0];
        liveFrom = 0;
        liveTo = 1;
        for (int i = 0; i <= n; i++) {
            Parallel.stopIfInterrupted();
            while (at < m && walkedRing / ringLength < walked / perimeterLength) {
                walkedRing += step(ring, at++);
            }
            windowStart[i] = i == 0 ? 0 : i == n ? m + 1 - width
                    : Math.max(windowStart[i - 1], Math.min(m + 1 - width, at - width / 2));
            before = row(i, before);
            if (i < n) {
                walked += step(perimeter, i);
            }
        }
        return before[width - 1];
    }

    private double[] row(int i, double[] before) {
        double[] cost = new double[width];
        Arrays.fill(cost, Double.POSITIVE_INFINITY);
        alongRing[i] = new boolean[width];
        int from = windowStart[i];
        int shift = i == 0 ? 0 : from - windowStart[i - 1];
        int first = width;
        int last = -1;
        int reach = liveTo - shift;
        for (int k = Math.max(0, liveFrom - shift); k < width && (k < reach || last == k - 1); k++) {
            int above = k + shift;
            double down = i > 0 && above < width
                    ? before[above] + shortOfDraft(perimeter, i - 1, i, ring, from + k, 1)
                    : Double.POSITIVE_INFINITY;
            double along = k > 0
                    ? cost[k - 1] + shortOfDraft(ring, from + k - 1, from + k, perimeter, i, -1)
                    : Double.POSITIVE_INFINITY;
            if (i == 0 && k == 0) {
                down = 0;
            }
            alongRing[i][k] = along < down;
            double total = rung(i, from + k) + Math.min(along, down);
            if (total <= most) {
                cost[k] = total;
                first = Math.min(first, k);
                last = k;
            }
        }
        liveFrom = first;
        liveTo = last + 1;
        return cost;
    }

    private int[] path() {
        int[] triangles = new int[3 * (n + m)];
        int i = n;
        int j = m;
        for (int t = triangles.length - 3; t >= 0; t -= 3) {
            if (alongRing[i][j - windowStart[i]]) {
                triangles[t] = i % n;
                triangles[t + 1] = n + (j - 1) % m;
                triangles[t + 2] = n + j % m;
                j--;
            } else {
                triangles[t] = (i - 1) % n;
                triangles[t + 1] = n + j % m;
                triangles[t + 2] = i % n;
                i--;
            }
        }
        return triangles;
    }

    private double rung(int i, int j) {
        int a = 3 * i;
        int b = 3 * j;
        double dx = perimeter[a] - ring[b];
        double dy = perimeter[a + 1] - ring[b + 1];
        double dz = perimeter[a + 2] - ring[b + 2];
        return Math.sqrt(dx * dx + dy * dy + dz * dz);
    }

    /** Of triangle {@code a b c}; {@code turn} is 1 if {@code c} should lie right of edge {@code a b} in plan. */
    private double shortOfDraft(double[] edge, int a, int b, double[] apex, int c, int turn) {
        int p = 3 * a;
        int q = 3 * b;
        int r = 3 * c;
        double ux = edge[q] - edge[p];
        double uy = edge[q + 1] - edge[p + 1];
        double uz = edge[q + 2] - edge[p + 2];
        double vx = apex[r] - edge[p];
        double vy = apex[r + 1] - edge[p + 1];
        double vz = apex[r + 2] - edge[p + 2];
        double nx = uy * vz - uz * vy;
        double ny = uz * vx - ux * vz;
        double nz = ux * vy - uy * vx;
        double twiceArea = Math.sqrt(nx * nx + ny * ny + nz * nz);
        return DRAFT_WEIGHT * Math.max(0, leastDraftSine * twiceArea + turn * nz) / 2;
    }

    private static double step(double[] points, int i) {
        int a = 3 * i;
        int b = a + 3;
        double dx = points[a] - points[b];
        double dy = points[a + 1] - points[b + 1];
        double dz = points[a + 2] - points[b + 2];
        return Math.sqrt(dx * dx + dy * dy + dz * dz);
    }

    private static double length(double[] points) {
        double length = 0;
        for (int i = 0; i + 1 < points.length / 3; i++) {
            length += step(points, i);
        }
        return length;
    }

    /** A corner of the convex hull: there the shortest rung surely belongs to the strip. */
    private static int outermost(double[] points) {
        int best = 0;
        for (int i = 1; i < points.length / 3; i++) {
            if (points[3 * i] > points[3 * best]) {
                best = i;
            }
        }
        return best;
    }

    private static int nearest(double[] ring, double[] points, int i) {
        int best = 0;
        double least = Double.POSITIVE_INFINITY;
        for (int j = 0; j < ring.length / 3; j++) {
            double dx = ring[3 * j] - points[3 * i];
            double dy = ring[3 * j + 1] - points[3 * i + 1];
            double dz = ring[3 * j + 2] - points[3 * i + 2];
            double distance = dx * dx + dy * dy + dz * dz;
            if (distance < least) {
                least = distance;
                best = j;
            }
        }
        return best;
    }

    /** From point {@code start} once around and back to it. */
    private static double[] turned(double[] points, int start) {
        double[] turned = new double[points.length + 3];
        System.arraycopy(points, 3 * start, turned, 0, points.length - 3 * start);
        System.arraycopy(points, 0, turned, points.length - 3 * start, 3 * start + 3);
        return turned;
    }
}
