package layupmold.geometry.mesh.io;

/**
 * Cuts polygons, also concave and slightly bent ones, into triangles by clipping ears (G. Meisters, Polygons have ears,
 * Amer. Math. Monthly 82, 1975) in the projection along the dominant axis of the polygon's Newell normal.
 *
 * <p>Ears of no area, and ears whose rim touches another corner, are taken only when nothing else is left, so corners
 * in the middle of a straight side get proper triangles. Cost O(n · r) for n corners of which r are reflex; the sum
 * over a file is bounded.
 */
final class PolygonTriangulator {

    private static final long MOST_WORK = 4_000_000_000L;

    private final double[] xyz;
    private double[] u = new double[16];
    private double[] v = new double[16];
    private int[] index = new int[16];
    private int[] next = new int[16];
    private int[] previous = new int[16];
    private int awkward;
    private long work;

    PolygonTriangulator(double[] xyz) {
        this.xyz = xyz;
    }

    /** Polygons for which no clean cut was found. */
    int awkward() {
        return awkward;
    }

    /**
     * Writes the n - 2 triangles of the polygon {@code corners[from..to)} to {@code out[at..]}.
     *
     * @return where the next triangle goes
     */
    int triangulate(int[] corners, int from, int to, int[] out, int at) {
        int n = to - from;
        if (n == 3) {
            System.arraycopy(corners, from, out, at, 3);
            return at + 3;
        }
        load(corners, from, n);
        return n == 4 ? quad(out, at) : clip(n, out, at);
    }

    /** Projects the corners so that the polygon runs counter-clockwise in (u, v). */
    private void load(int[] corners, int from, int n) {
        if (n > index.length) {
            int size = Math.max(n, 2 * index.length);
            u = new double[size];
            v = new double[size];
            index = new int[size];
            next = new int[size];
            previous = new int[size];
        }
        double nx = 0;
        double ny = 0;
        double nz = 0;
        int o = 3 * corners[from];
        for (int i = 0; i < n; i++) {
            int a = 3 * corners[from + i];
            int b = 3 * corners[from + (i + 1) % n];
            double ax = xyz[a] - xyz[o];
            double ay = xyz[a + 1] - xyz[o + 1];
            double az = xyz[a + 2] - xyz[o + 2];
            double bx = xyz[b] - xyz[o];
            double by = xyz[b + 1] - xyz[o + 1];
            double bz = xyz[b + 2] - xyz[o + 2];
            nx += ay * bz - az * by;
            ny += az * bx - ax * bz;
            nz += ax * by - ay * bx;
        }
        int drop = Math.abs(nx) > Math.abs(ny) ? Math.abs(nx) > Math.abs(nz) ? 0 : 2
                : Math.abs(ny) > Math.abs(nz) ? 1 : 2;
        double sign = Math.signum(drop == 0 ? nx : drop == 1 ? ny : nz);
        int first = (drop + 1) % 3;
        int second = (drop + 2) % 3;
        for (int i = 0; i < n; i++) {
            int a = 3 * corners[from + i];
            index[i] = corners[from + i];
            u[i] = xyz[a + first] - xyz[o + first];
            v[i] = sign < 0 ? xyz[o + second] - xyz[a + second] : xyz[a + second] - xyz[o + second];
            next[i] = (i + 1) % n;
            previous[i] = (i + n - 1) % n;
        }
    }

    private double turn(int a, int b, int c) {
        return (u[b] - u[a]) * (v[c] - v[a]) - (v[b] - v[a]) * (u[c] - u[a]);
    }

    /** Cuts along the shorter diagonal of those that leave two proper triangles. */
    private int quad(int[] out, int at) {
        boolean even = turn(0, 1, 2) > 0 && turn(0, 2, 3) > 0;
        boolean odd = turn(0, 1, 3) > 0 && turn(1, 2, 3) > 0;
        if (!even && !odd) {
            awkward++;
        }
        boolean useOdd = odd && (!even || distance2(1, 3) < distance2(0, 2));
        return useOdd ? emit(1, 2, 3, out, emit(0, 1, 3, out, at)) : emit(0, 2, 3, out, emit(0, 1, 2, out, at));
    }

    private double distance2(int i, int j) {
        double sum = 0;
        for (int k = 0; k < 3; k++) {
            double d = xyz[3 * index[i] + k] - xyz[3 * index[j] + k];
            sum += d * d;
        }
        return sum;
    }

    private int emit(int a, int b, int c, int[] out, int at) {
        out[at] = index[a];
        out[at + 1] = index[b];
        out[at + 2] = index[c];
        return at + 3;
    }

    private int clip(int n, int[] out, int start) {
        int at = start;
        int left = n;
        int corner = 0;
        int tried = 0;
        int strictness = 2;
        boolean clean = true;
        while (left > 3) {
            int a = previous[corner];
            int c = next[corner];
            if (isEar(a, corner, c, strictness)) {
                at = emit(a, corner, c, out, at);
                next[a] = c;
                previous[c] = a;
                left--;
                // Skipping one corner spreads the ears and avoids long fans.
                corner = next[c];
                tried = 0;
                clean &= strictness > 0;
                strictness = 2;
            } else {
                corner = c;
                if (++tried > left) {
                    strictness--;
                    tried = 0;
                }
            }
        }
        if (!clean || turn(previous[corner], corner, next[corner]) < 0) {
            awkward++;
        }
        return emit(previous[corner], corner, next[corner], out, at);
    }

    /** Strictness 2: no other corner in or on the triangle; 1: none strictly inside; 0: anything goes. */
    private boolean isEar(int a, int b, int c, int strictness) {
        double area = turn(a, b, c);
        if (strictness == 0) {
            return true;
        }
        if (strictness == 2 ? area <= 0 : area < 0) {
            return false;
        }
        for (int p = next[c]; p != a; p = next[p]) {
            if (++work > MOST_WORK) {
                throw Unreadable.because("polygons-too-large", "the file's polygons have too many corners to cut",
                        "Export the mesh as triangles.");
            }
            if (blocks(p, a, b, c, strictness)) {
                return false;
            }
        }
        return true;
    }

    private boolean blocks(int p, int a, int b, int c, int strictness) {
        double ab = turn(a, b, p);
        double bc = turn(b, c, p);
        double ca = turn(c, a, p);
        if (strictness == 1) {
            return ab > 0 && bc > 0 && ca > 0;
        }
        return ab >= 0 && bc >= 0 && ca >= 0 && !same(p, a) && !same(p, b) && !same(p, c);
    }

    private boolean same(int p, int q) {
        return u[p] == u[q] && v[p] == v[q];
    }
}
