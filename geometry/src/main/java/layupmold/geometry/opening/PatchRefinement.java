package layupmold.geometry.opening;

import java.util.Arrays;

/**
 * Refines a patch to the density of the face around it, after Liepa ("Filling holes in meshes", 2003): edges longer
 * than the size wanted at their place are halved, longest first, and edges are flipped while that widens the angles
 * across from them. The size at a corner of the loop is that of the face there; away from corners finer than most it
 * grows to what is usual along the loop, and it may grow further towards the middle of a long loop, so that the patch
 * stays within a given number of triangles.
 *
 * <p>Also halves edges that join two corners of the loop, so that each has the patch's own vertices beside it: not
 * across corners nearly in line, though, where the new vertex would all but lie on the loop; flips undo most of those.
 */
final class PatchRefinement {

    private static final double SPLIT_ABOVE = 1.5;
    private static final int MOST_PASSES = 30;
    /** Least growth of size with distance where it is below the usual. */
    private static final double GRADE = 0.3;
    /** Least height over a side of the loop, by its length, that halving another edge of its triangle may leave. */
    private static final double LEAST_HEIGHT = 0.2;
    /** The same for edges between corners once flips undid what they could. */
    private static final double LEAST_HEIGHT_AT_LAST = 0.03;
    private static final int WANTED_TRIANGLES = 3500;
    private static final int MOST_VERTICES = 40_000;
    /** Mean area of a triangle after refinement to edges of length 1, as measured: below the equilateral 0.43. */
    private static final double UNIT_TRIANGLE = 0.25;

    private final PatchMesh patch;
    private final OpeningLoop loop;
    private final double growth;
    /** Mean size along the loop. */
    private final double usual;
    private double[] size;
    private double leastHeightOverCorners;
    private int[] queue = new int[256];
    private int queued;
    private long flipsLeft;

    /** Prepares to refine {@code patch} in place, as often as its vertices move. */
    PatchRefinement(PatchMesh patch, OpeningLoop loop) {
        this.patch = patch;
        this.loop = loop;
        this.size = Arrays.copyOf(loop.size, Math.max(16, 2 * loop.cornerCount()));
        this.usual = Arrays.stream(loop.size).sum() / loop.cornerCount();
        this.growth = growth(patch, loop, usual);
    }

    /** Splits and flips until every edge is short enough. */
    void refine() {
        flipAll();
        leastHeightOverCorners = LEAST_HEIGHT;
        for (int pass = 0; pass < MOST_PASSES; pass++) {
            if (!splitPass()) {
                if (leastHeightOverCorners == LEAST_HEIGHT_AT_LAST) {
                    return;
                }
                leastHeightOverCorners = LEAST_HEIGHT_AT_LAST;
            }
            flipPending();
        }
    }

    /** The least growth of size with distance from the loop that keeps a disc of this area within bounds. */
    private static double growth(PatchMesh patch, OpeningLoop loop, double side) {
        double area = 0;
        for (int t = 0; t < 3 * patch.triangleCount; t += 3) {
            area += Triangles.area(patch.xyz, patch.origin[t], patch.origin[t + 1], patch.origin[t + 2]);
        }
        double perimeter = loop.perimeter();
        double depth = 2 * area / perimeter;
        double growth = 0;
        while (growth < 1) {
            double triangles = 0;
            for (int i = 0; i < 64; i++) {
                double d = (i + 0.5) * depth / 64;
                double local = side + growth * d;
                triangles += perimeter * (1 - d / depth) * depth / 64 / (UNIT_TRIANGLE * local * local);
            }
            if (triangles <= WANTED_TRIANGLES) {
                break;
            }
            growth += 0.05;
        }
        return growth;
    }

    private boolean splitPass() {
        int[] candidates = new int[3 * patch.triangleCount];
        int count = 0;
        for (int h = 0; h < candidates.length; h++) {
            if (patch.twin[h] > h && excess(h) > SPLIT_ABOVE) {
                candidates[count++] = h;
            }
        }
        for (int h : longestFirst(candidates, count)) {
            if (patch.vertexCount >= MOST_VERTICES) {
                return false;
            }
            // An earlier split may have halved this edge or its neighbours: look again.
            if (excess(h) > SPLIT_ABOVE) {
                halve(h);
            }
        }
        return count > 0;
    }

    private int[] longestFirst(int[] candidates, int count) {
        long[] keys = new long[count];
        for (int i = 0; i < count; i++) {
            int h = candidates[i];
            float length = (float) Triangles.distance(patch.xyz, patch.origin[h], patch.destination(h));
            keys[i] = (long) ~Float.floatToIntBits(length) << 32 | h;
        }
        Arrays.sort(keys);
        return Arrays.stream(keys).mapToInt(k -> (int) k).toArray();
    }

    /** Length of an edge against the size wanted there; without bound for a chord of the loop, 0 if it is to stay. */
    private double excess(int h) {
        int a = patch.origin[h];
        int b = patch.destination(h);
        boolean chord = patch.isOnLoop(a) && patch.isOnLoop(b);
        double least = chord ? leastHeightOverCorners : LEAST_HEIGHT;
        if (!leavesHeight(h, least) || !leavesHeight(patch.twin[h], least)) {
            return 0;
        }
        if (chord) {
            return Double.POSITIVE_INFINITY;
        }
        double length = Triangles.distance(patch.xyz, a, b);
        return length / ((size[a] + size[b]) / 2 + growthFrom(Math.min(size[a], size[b])) * length / 4);
    }

    /** The loop's sides stay whole: over long ones, or across corners in line, vertices would come to lie on them. */
    private boolean leavesHeight(int h, double least) {
        for (int g = PatchMesh.next(h); g != h; g = PatchMesh.next(g)) {
            if (patch.twin[g] < 0) {
                double side = Triangles.distance(patch.xyz, patch.origin[g], patch.destination(g));
                if (Triangles.area(patch.xyz, patch.origin[g], patch.destination(g), patch.apex(g))
                        < least * side * side) {
                    return false;
                }
            }
        }
        return true;
    }

    private double growthFrom(double from) {
        return from < usual ? Math.max(GRADE, growth) : growth;
    }

    private void halve(int h) {
        int a = patch.origin[h];
        int b = patch.destination(h);
        double length = Triangles.distance(patch.xyz, a, b);
        double[] p = patch.xyz;
        int m = patch.split(h, (p[3 * a] + p[3 * b]) / 2, (p[3 * a + 1] + p[3 * b + 1]) / 2,
                (p[3 * a + 2] + p[3 * b + 2]) / 2);
        if (m == size.length) {
            size = Arrays.copyOf(size, 2 * m);
        }
        double least = Math.min(size[a], size[b]);
        size[m] = least + growth * length / 2;
        if (least < usual) {
            size[m] = Math.max(size[m], Math.min(usual, least + GRADE * length / 2));
        }
        for (int around = PatchMesh.next(h), i = 0; i < 4; i++) {
            push(around);
            push(PatchMesh.next(around));
            around = patch.twin[PatchMesh.previous(around)];
        }
    }

    private void flipAll() {
        for (int h = 0; h < 3 * patch.triangleCount; h++) {
            if (patch.twin[h] > h) {
                push(h);
            }
        }
        flipPending();
    }

    private void flipPending() {
        // Flips on a creased patch change its surface and need not end on their own.
        flipsLeft = 20L * patch.triangleCount;
        while (queued > 0) {
            int h = queue[--queued];
            if (patch.twin[h] >= 0 && flipsLeft > 0 && widens(h)) {
                flipsLeft--;
                int g = patch.twin[h];
                patch.flip(h);
                push(h);
                push(PatchMesh.next(h));
                push(g);
                push(PatchMesh.next(g));
            }
        }
    }

    /** True if flipping the edge is sound and the angles across from it add up to more than half a turn. */
    private boolean widens(int h) {
        int a = patch.origin[h];
        int b = patch.destination(h);
        int p = patch.apex(h);
        int d = patch.apex(patch.twin[h]);
        double[] xyz = patch.xyz;
        if (!(Triangles.cotangent(xyz, p, a, b) + Triangles.cotangent(xyz, d, a, b) < -1e-9)) {
            return false;
        }
        if (patch.isOnLoop(p) && patch.isOnLoop(d) && loop.isFaceEdge(p, d) || patch.hasEdge(p, d)) {
            return false;
        }
        double[] n = new double[12];
        Triangles.normal(xyz, a, b, p, n, 0);
        Triangles.normal(xyz, b, a, d, n, 3);
        Triangles.normal(xyz, a, d, p, n, 6);
        Triangles.normal(xyz, d, b, p, n, 9);
        double[] mean = {n[0] + n[3], n[1] + n[4], n[2] + n[5]};
        return dot(n, 6, mean) > 0 && dot(n, 9, mean) > 0;
    }

    private static double dot(double[] n, int i, double[] mean) {
        return n[i] * mean[0] + n[i + 1] * mean[1] + n[i + 2] * mean[2];
    }

    private void push(int h) {
        if (queued == queue.length) {
            queue = Arrays.copyOf(queue, 2 * queued);
        }
        queue[queued++] = h;
    }
}
