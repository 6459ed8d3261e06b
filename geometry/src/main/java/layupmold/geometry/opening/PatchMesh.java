package layupmold.geometry.opening;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * A disc of triangles that grows and changes: vertices {@code 0..loopCount-1} are the loop's corners and stay where
 * they are, later ones lie inside. Half-edge {@code 3t + i} leaves corner {@code i} of triangle {@code t}; {@link #twin}
 * is negative on the loop.
 */
final class PatchMesh {

    final int loopCount;
    double[] xyz;
    int vertexCount;
    int[] origin;
    int[] twin;
    int triangleCount;

    private int[] leaving;

    private PatchMesh(int loopCount, double[] xyz, int[] origin, int[] twin) {
        this.loopCount = loopCount;
        this.xyz = xyz;
        this.vertexCount = xyz.length / 3;
        this.origin = origin;
        this.twin = twin;
        this.triangleCount = origin.length / 3;
        this.leaving = new int[vertexCount];
        for (int h = 0; h < origin.length; h++) {
            leaving[origin[h]] = h;
        }
    }

    /** A patch over the loop's corners, or null if the triangles are not a disc bounded by it. */
    static PatchMesh of(double[] loopXyz, int[] triangles) {
        TriangleMesh mesh = new TriangleMesh(loopXyz.clone(), triangles.clone());
        int n = mesh.vertexCount();
        EdgeTopology topology = EdgeTopology.of(mesh);
        if (mesh.triangleCount() != n - 2 || topology.nonManifoldCount() > 0 || topology.boundaryCount() != n) {
            return null;
        }
        int[] twin = new int[triangles.length];
        for (int h = 0; h < twin.length; h++) {
            twin[h] = topology.twin(h);
            if (twin[h] < 0 && topology.to(h) != (topology.from(h) + 1) % n) {
                return null;
            }
        }
        return new PatchMesh(n, mesh.xyz(), mesh.triangles(), twin);
    }

    static int next(int h) {
        return EdgeTopology.next(h);
    }

    static int previous(int h) {
        return EdgeTopology.previous(h);
    }

    int destination(int h) {
        return origin[next(h)];
    }

    /** The corner across from half-edge h in its triangle. */
    int apex(int h) {
        return origin[previous(h)];
    }

    boolean isOnLoop(int v) {
        return v < loopCount;
    }

    /** True if some triangle joins a and b. */
    boolean hasEdge(int a, int b) {
        int start = leaving[a];
        int h = start;
        do {
            if (destination(h) == b || apex(h) == b) {
                return true;
            }
            h = twin[previous(h)];
        } while (h >= 0 && h != start);
        h = h < 0 ? twin[start] : -1;
        while (h >= 0) {
            h = next(h);
            if (destination(h) == b || apex(h) == b) {
                return true;
            }
            h = twin[h];
        }
        return false;
    }

    /** Puts a new vertex on inner half-edge h and splits the triangles on both sides; returns the vertex. */
    int split(int h, double x, double y, double z) {
        int m = addVertex(x, y, z);
        int g = twin[h];
        int a = origin[h];
        int b = origin[g];
        int hNext = next(h);
        int gNext = next(g);
        int p = apex(h);
        int d = apex(g);
        int t = addTriangle(m, b, p);
        int s = addTriangle(m, a, d);
        link(t + 1, twin[hNext]);
        link(s + 1, twin[gNext]);
        origin[hNext] = m;
        origin[gNext] = m;
        link(h, s);
        link(g, t);
        link(hNext, t + 2);
        link(gNext, s + 2);
        leaving[m] = t;
        leaving[a] = h;
        leaving[b] = g;
        leaving[p] = t + 2;
        leaving[d] = s + 2;
        return m;
    }

    /** Replaces inner edge ab of triangles abp and bad by pd. */
    void flip(int h) {
        int g = twin[h];
        int hPrevious = previous(h);
        int gPrevious = previous(g);
        int a = origin[h];
        int b = origin[g];
        int p = origin[hPrevious];
        int d = origin[gPrevious];
        origin[h] = d;
        origin[g] = p;
        link(h, twin[gPrevious]);
        link(g, twin[hPrevious]);
        link(hPrevious, gPrevious);
        leaving[d] = h;
        leaving[p] = g;
        leaving[a] = next(g);
        leaving[b] = next(h);
    }

    private void link(int h, int g) {
        twin[h] = g;
        if (g >= 0) {
            twin[g] = h;
        }
    }

    private int addVertex(double x, double y, double z) {
        if (3 * vertexCount == xyz.length) {
            xyz = Arrays.copyOf(xyz, 2 * xyz.length);
            leaving = Arrays.copyOf(leaving, 2 * leaving.length);
        }
        xyz[3 * vertexCount] = x;
        xyz[3 * vertexCount + 1] = y;
        xyz[3 * vertexCount + 2] = z;
        return vertexCount++;
    }

    /** Returns the new triangle's first half-edge. */
    private int addTriangle(int a, int b, int c) {
        int h = 3 * triangleCount++;
        if (h == origin.length) {
            origin = Arrays.copyOf(origin, 2 * h + 6);
            twin = Arrays.copyOf(twin, 2 * h + 6);
        }
        origin[h] = a;
        origin[h + 1] = b;
        origin[h + 2] = c;
        return h;
    }

    PatchMesh copy() {
        return new PatchMesh(loopCount, Arrays.copyOf(xyz, 3 * vertexCount),
                Arrays.copyOf(origin, 3 * triangleCount), Arrays.copyOf(twin, 3 * triangleCount));
    }

    TriangleMesh toMesh() {
        return new TriangleMesh(Arrays.copyOf(xyz, 3 * vertexCount), Arrays.copyOf(origin, 3 * triangleCount));
    }
}
