package layupmold.geometry.opening;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import layupmold.geometry.mark.TrimMark;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.VertexTriangles;

/**
 * Cuts a patch along the lines on which a trim mark begins, is deepest and ends, seen from its loop. The cuts lie in
 * the patch's own surface, so they cannot make it cross anything. Distances are straight-line.
 */
final class TrimRingCut {

    /** A vertex this close to a line, as a share of the width, is moved onto it: no slivers. */
    private static final double SNAP = 0.1;
    /** How far from its line a vertex may lie, as a share of the width. */
    private static final double PLACED = 0.005;
    private static final int PLACINGS = 30;
    /** What a triangle keeps of its area, and least cosine of how far it turns, when a corner is moved onto a line. */
    private static final double LEAST_AREA = 0.2;
    private static final double MOST_TILT_COSINE = 0.9;

    /**
     * @param mesh the cut patch; the uncut patch's vertices come first
     * @param ring loops in vertices of {@code mesh}
     * @param profile how deep each vertex lies in the groove, 0 to 1 of the whole mark's depth
     */
    record Result(TriangleMesh mesh, TrimRing ring, double[] profile) {
    }

    private final TrimMark mark;
    private final double share;
    private final int loopCount;
    private final double[] lines;
    private final LoopDistance fromLoop;
    private double[] xyz;
    private double[] distance;
    private int vertexCount;
    private int[] triangles;
    private int size;

    private TrimRingCut(PatchMesh patch, TrimMark whole, double share) {
        this.mark = whole.scaled(share);
        this.share = share;
        this.loopCount = patch.loopCount;
        this.lines = mark.leadMm() > snapMm() ? new double[] {mark.leadMm(), mark.valleyMm(), mark.endMm()}
                : new double[] {mark.valleyMm(), mark.endMm()};
        this.fromLoop = new LoopDistance(patch.xyz, loopCount);
        RidgeSplits.Result split = RidgeSplits.split(patch, fromLoop, lines, snapMm());
        this.xyz = split.mesh().xyz();
        this.vertexCount = split.mesh().vertexCount();
        this.triangles = split.mesh().triangles();
        this.size = triangles.length;
        this.distance = split.distance();
    }

    /**
     * The cut patch, or null if the ring would not be one band all along the loop, or its groove would not fit.
     *
     * @param share of the whole mark, in all its measures
     */
    static Result cut(PatchMesh patch, TriangleMesh face, OpeningLoop loop, TrimMark whole, double share) {
        return new TrimRingCut(patch, whole, share).run(face, loop, whole.depthMm());
    }

    private Result run(TriangleMesh face, OpeningLoop loop, double wholeDepthMm) {
        snap();
        for (double line : lines) {
            cutAt(line);
        }
        int[] valley = lineAt(mark.valleyMm());
        int[] inner = lineAt(mark.endMm());
        if (valley == null || inner == null) {
            return null;
        }
        TriangleMesh mesh = new TriangleMesh(Arrays.copyOf(xyz, 3 * vertexCount), Arrays.copyOf(triangles, size));
        double[] profile = new double[vertexCount];
        for (int v = 0; v < vertexCount; v++) {
            profile[v] = share * Math.max(0, 1 - 2 * Math.abs(distance[v] - mark.valleyMm()) / mark.widthMm());
        }
        return TrimEngraving.fits(mesh, profile, wholeDepthMm, face, loop)
                ? new Result(mesh, new TrimRing(mark.endMm(), valley, inner), profile) : null;
    }

    private double snapMm() {
        return SNAP * mark.widthMm();
    }

    /** Moves vertices near a line onto it, each unless that tilts its triangles or makes the line meet itself there. */
    private void snap() {
        VertexTriangles around = VertexTriangles.of(new TriangleMesh(xyz, triangles));
        for (int v = loopCount; v < vertexCount; v++) {
            for (double line : lines) {
                double off = Math.abs(distance[v] - line);
                if (off <= snapMm() && isCrossedOnce(v, line, around)
                        && (moves(v, line, around) || off <= PLACED * mark.widthMm())) {
                    distance[v] = line;
                }
            }
        }
    }

    /** Moves a vertex to a distance from the loop, if that is possible along the patch. */
    private boolean moves(int v, double line, VertexTriangles around) {
        int first = around.start(v);
        int count = around.start(v + 1) - first;
        double[] normals = new double[3 * count + 3];
        for (int i = 0; i < count; i++) {
            normalOf(around.triangle(first + i), normals, 3 * i);
        }
        double[] was = Arrays.copyOfRange(xyz, 3 * v, 3 * v + 3);
        fromLoop.moveTo(xyz, v, line);
        boolean fits = Math.abs(fromLoop.at(xyz, v) - line) <= PLACED * mark.widthMm();
        int now = 3 * count;
        for (int i = 0; i < count && fits; i++) {
            normalOf(around.triangle(first + i), normals, now);
            fits = Triangles.length(normals, now) >= LEAST_AREA * Triangles.length(normals, 3 * i)
                    && Triangles.cosine(normals, now, normals, 3 * i) >= MOST_TILT_COSINE;
        }
        if (!fits) {
            System.arraycopy(was, 0, xyz, 3 * v, 3);
        }
        return fits;
    }

    private void normalOf(int t, double[] normal, int at) {
        Triangles.normal(xyz, triangles[3 * t], triangles[3 * t + 1], triangles[3 * t + 2], normal, at);
    }

    /** True if what is nearer than a line lies to one side of a vertex only, that vertex being on the line. */
    private boolean isCrossedOnce(int v, double line, VertexTriangles around) {
        int steps = 0;
        for (int i = around.start(v); i < around.start(v + 1); i++) {
            int t = 3 * around.triangle(i);
            int k = triangles[t] == v ? 0 : triangles[t + 1] == v ? 1 : 2;
            double d = distance[triangles[t + (k + 1) % 3]] - line;
            double e = distance[triangles[t + (k + 2) % 3]] - line;
            // One from each side to the line and one on from there: four to pass it and come back.
            steps += Math.abs((int) (Math.signum(d) - Math.signum(e)));
        }
        return steps <= 4;
    }

    private void cutAt(double level) {
        Map<Long, Integer> onEdge = new HashMap<>();
        int before = size;
        for (int t = 0; t < before; t += 3) {
            cutTriangle(t, level, onEdge);
        }
    }

    private void cutTriangle(int t, double level, Map<Long, Integer> onEdge) {
        int below = 0;
        int above = 0;
        for (int i = 0; i < 3; i++) {
            double d = distance[triangles[t + i]];
            below += d < level ? 1 : 0;
            above += d > level ? 1 : 0;
        }
        if (below == 0 || above == 0) {
            return;
        }
        // Turn the triangle so that a is alone on its side, or, with one corner on the line, follows that corner.
        int first = 0;
        for (int i = 0; i < 3; i++) {
            double d = distance[triangles[t + i]];
            if (below + above == 2 ? d == level : below == 1 ? d < level : d > level) {
                first = i;
            }
        }
        int a = triangles[t + first];
        int b = triangles[t + (first + 1) % 3];
        int c = triangles[t + (first + 2) % 3];
        if (below + above == 2) {
            int m = cutEdge(b, c, level, onEdge);
            set(t, a, b, m);
            add(a, m, c);
            return;
        }
        int ab = cutEdge(a, b, level, onEdge);
        int ca = cutEdge(a, c, level, onEdge);
        set(t, a, ab, ca);
        if (Triangles.distance(xyz, b, ca) < Triangles.distance(xyz, ab, c)) {
            add(ab, b, ca);
            add(b, c, ca);
        } else {
            add(ab, b, c);
            add(ab, c, ca);
        }
    }

    private int cutEdge(int a, int b, double level, Map<Long, Integer> onEdge) {
        long key = (long) Math.min(a, b) << 32 | Math.max(a, b);
        Integer known = onEdge.get(key);
        if (known != null) {
            return known;
        }
        int p = Math.min(a, b);
        int q = Math.max(a, b);
        if (vertexCount == distance.length) {
            distance = Arrays.copyOf(distance, 2 * vertexCount);
        }
        if (3 * vertexCount >= xyz.length) {
            xyz = Arrays.copyOf(xyz, 6 * vertexCount);
        }
        placeAt(p, q, level);
        distance[vertexCount] = level;
        onEdge.put(key, vertexCount);
        return vertexCount++;
    }

    /** Puts the next vertex between p and q where it is as far from the loop as asked, which need not go linearly. */
    private void placeAt(int p, int q, double level) {
        double low = 0;
        double high = 1;
        double share = (level - distance[p]) / (distance[q] - distance[p]);
        boolean rises = distance[q] > distance[p];
        for (int i = 0; i < PLACINGS; i++) {
            for (int k = 0; k < 3; k++) {
                xyz[3 * vertexCount + k] = xyz[3 * p + k] + share * (xyz[3 * q + k] - xyz[3 * p + k]);
            }
            double off = fromLoop.at(xyz, vertexCount) - level;
            if (Math.abs(off) < PLACED * mark.widthMm()) {
                return;
            }
            if (off < 0 == rises) {
                low = share;
            } else {
                high = share;
            }
            share = (low + high) / 2;
        }
    }

    private void set(int t, int a, int b, int c) {
        triangles[t] = a;
        triangles[t + 1] = b;
        triangles[t + 2] = c;
    }

    private void add(int a, int b, int c) {
        if (size == triangles.length) {
            triangles = Arrays.copyOf(triangles, 2 * size);
        }
        set(size, a, b, c);
        size += 3;
    }

    /** The single closed line between what is nearer than {@code level} and the rest, or null if it is not single. */
    private int[] lineAt(double level) {
        Map<Integer, Integer> after = new HashMap<>();
        int first = -1;
        Map<Long, Boolean> lowEdges = new HashMap<>();
        for (int t = 0; t < size; t += 3) {
            if (isLow(t, level)) {
                for (int i = 0; i < 3; i++) {
                    lowEdges.put((long) triangles[t + i] << 32 | triangles[t + (i + 1) % 3], true);
                }
            }
        }
        for (int t = 0; t < size; t += 3) {
            for (int i = 0; i < 3 && isLow(t, level); i++) {
                int a = triangles[t + i];
                int b = triangles[t + (i + 1) % 3];
                if (distance[a] == level && distance[b] == level && !lowEdges.containsKey((long) b << 32 | a)) {
                    if (after.put(a, b) != null) {
                        return null;
                    }
                    first = first < 0 ? a : first;
                }
            }
        }
        int[] line = new int[after.size()];
        int v = first;
        for (int i = 0; i < line.length; i++) {
            line[i] = v;
            v = after.getOrDefault(v, -1);
            if (v < 0 || v == first && i + 1 < line.length) {
                return null;
            }
        }
        return line.length >= 3 && v == first ? line : null;
    }

    private boolean isLow(int t, double level) {
        double a = distance[triangles[t]];
        double b = distance[triangles[t + 1]];
        double c = distance[triangles[t + 2]];
        return a <= level && b <= level && c <= level && (a < level || b < level || c < level);
    }
}
