package layupmold.geometry.opening;

import java.util.Arrays;
import java.util.HashMap;
import java.util.Map;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Cuts a patch along the lines at half the ring's width and the whole width from its loop. The cuts lie in the patch's
 * own surface, so they cannot make it cross anything. Distances are straight-line, and linear along edges.
 */
final class TrimRingCut {

    /** A vertex this close to a line, as a share of the width, is taken to lie on it: no slivers. */
    private static final double SNAP = 0.1;

    /**
     * @param mesh the cut patch; the uncut patch's vertices come first
     * @param ring loops in vertices of {@code mesh}
     * @param profile how deep each vertex lies in the groove, 0 to 1 of the depth
     */
    record Result(TriangleMesh mesh, TrimRing ring, double[] profile) {
    }

    private final double widthMm;
    private double[] xyz;
    private double[] distance;
    private int vertexCount;
    private int[] triangles;
    private int size;

    private TrimRingCut(PatchMesh patch, double widthMm) {
        this.widthMm = widthMm;
        TriangleMesh mesh = patch.toMesh();
        this.xyz = mesh.xyz();
        this.vertexCount = mesh.vertexCount();
        this.triangles = mesh.triangles();
        this.size = triangles.length;
        this.distance = LoopDistance.of(patch, widthMm);
    }

    /** The cut patch, or null if the ring would not be one band all along the loop, or its groove would not fit. */
    static Result cut(PatchMesh patch, TriangleMesh face, OpeningLoop loop, double widthMm) {
        return new TrimRingCut(patch, widthMm).run(face, loop);
    }

    private Result run(TriangleMesh face, OpeningLoop loop) {
        cutAt(widthMm / 2);
        cutAt(widthMm);
        int[] valley = lineAt(widthMm / 2);
        int[] inner = lineAt(widthMm);
        if (valley == null || inner == null) {
            return null;
        }
        TriangleMesh mesh = new TriangleMesh(Arrays.copyOf(xyz, 3 * vertexCount), Arrays.copyOf(triangles, size));
        double[] profile = new double[vertexCount];
        for (int v = 0; v < vertexCount; v++) {
            profile[v] = Math.max(0, 1 - Math.abs(2 * distance[v] / widthMm - 1));
        }
        return TrimEngraving.fits(mesh, profile, widthMm, face, loop)
                ? new Result(mesh, new TrimRing(widthMm, valley, inner), profile) : null;
    }

    private void cutAt(double level) {
        for (int v = 0; v < vertexCount; v++) {
            if (Math.abs(distance[v] - level) <= SNAP * widthMm) {
                distance[v] = level;
            }
        }
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
        double share = (level - distance[p]) / (distance[q] - distance[p]);
        if (vertexCount == distance.length) {
            distance = Arrays.copyOf(distance, 2 * vertexCount);
        }
        if (3 * vertexCount >= xyz.length) {
            xyz = Arrays.copyOf(xyz, 6 * vertexCount);
        }
        for (int k = 0; k < 3; k++) {
            xyz[3 * vertexCount + k] = xyz[3 * p + k] + share * (xyz[3 * q + k] - xyz[3 * p + k]);
        }
        distance[vertexCount] = level;
        onEdge.put(key, vertexCount);
        return vertexCount++;
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
