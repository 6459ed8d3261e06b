package layupmold.geometry.fillet;

import com.carrotsearch.hppc.DoubleArrayList;
import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.LongIntHashMap;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.VertexTriangles;
import org.joml.Vector3d;

/** The sheet while it is refined: its vertices with what is known of them, and triangles that are parts of the given. */
final class FilletSheet {

    private final RollingBall rolling;
    private final VertexTriangles around;
    private final int given;
    final Faults faults;
    /** Null where nobody asked yet: the vertex is far from any filling. */
    final List<Spot> spots;
    private final DoubleArrayList marks;
    /** Triangles of the given sheet that meet in each vertex that was added, two a vertex. */
    private final IntArrayList sources = new IntArrayList();
    IntArrayList triangles;
    /** For each triangle the given one that it is a part of. */
    IntArrayList source;

    /**
     * @param marks how far the given surface lies off the ground at each vertex, three numbers
     * @param faults places that are left as they are, to which others may come
     */
    FilletSheet(RollingBall rolling, double[] marks, Faults faults) {
        TriangleMesh ground = rolling.ground();
        this.rolling = rolling;
        this.faults = faults;
        this.around = VertexTriangles.of(ground);
        this.given = ground.vertexCount();
        this.spots = new ArrayList<>(Arrays.asList(new Spot[given]));
        this.marks = DoubleArrayList.from(marks);
        this.triangles = IntArrayList.from(ground.triangles());
        this.source = new IntArrayList(ground.triangleCount());
        for (int t = 0; t < ground.triangleCount(); t++) {
            source.add(t);
        }
    }

    int vertexCount() {
        return spots.size();
    }

    int triangleCount() {
        return source.size();
    }

    int givenCount() {
        return given;
    }

    double ground(int v, int k) {
        if (v < given) {
            return rolling.ground().xyz()[3 * v + k];
        }
        Spot s = spots.get(v);
        return k == 0 ? s.x : k == 1 ? s.y : s.z;
    }

    double filled(int v, int k) {
        Spot s = spots.get(v);
        if (s == null || !s.isFilled()) {
            return ground(v, k);
        }
        return k == 0 ? s.filledX : k == 1 ? s.filledY : s.filledZ;
    }

    double marked(int v, int k) {
        return filled(v, k) + marks.get(3 * v + k);
    }

    /** Whether any corner of a triangle is filled. */
    boolean isActive(int t) {
        return isFilled(triangles.get(3 * t)) || isFilled(triangles.get(3 * t + 1))
                || isFilled(triangles.get(3 * t + 2));
    }

    boolean isFilled(int v) {
        return spots.get(v) != null && spots.get(v).isFilled();
    }

    boolean hasFilling() {
        return spots.stream().anyMatch(spot -> spot != null && spot.isFilled());
    }

    /** Triangles of the given sheet that meet in a vertex. */
    int[] sources(int v) {
        if (v >= given) {
            int a = sources.get(2 * (v - given));
            int b = sources.get(2 * (v - given) + 1);
            return a == b ? new int[] {a} : new int[] {a, b};
        }
        int[] all = new int[around.start(v + 1) - around.start(v)];
        for (int i = 0; i < all.length; i++) {
            all[i] = around.triangle(around.start(v) + i);
        }
        return all;
    }

    /** Adds a vertex on the edge from a to b, at {@code share} of it. */
    int add(Spot spot, int a, int b, double share, int firstSource, int secondSource) {
        spots.add(spot);
        for (int k = 0; k < 3; k++) {
            marks.add((1 - share) * marks.get(3 * a + k) + share * marks.get(3 * b + k));
        }
        sources.add(firstSource);
        sources.add(secondSource);
        return spots.size() - 1;
    }

    /** Adds a vertex inside a given triangle, before any other was cut. */
    void insert(Spot spot, int triangle) {
        int[] c = {triangles.get(3 * triangle), triangles.get(3 * triangle + 1), triangles.get(3 * triangle + 2)};
        double[] weights = weights(spot, c);
        spots.add(spot);
        for (int k = 0; k < 3; k++) {
            marks.add(weights[0] * marks.get(3 * c[0] + k) + weights[1] * marks.get(3 * c[1] + k)
                    + weights[2] * marks.get(3 * c[2] + k));
        }
        sources.add(triangle);
        sources.add(triangle);
        int v = spots.size() - 1;
        triangles.set(3 * triangle + 2, v);
        put(triangles, c[1], c[2], v);
        put(triangles, c[2], c[0], v);
        source.add(triangle);
        source.add(triangle);
    }

    private double[] weights(Spot spot, int[] c) {
        Vector3d p = new Vector3d(spot.x, spot.y, spot.z);
        Vector3d[] to = new Vector3d[3];
        for (int i = 0; i < 3; i++) {
            to[i] = rolling.ground().vertex(c[i]).sub(p);
        }
        double[] areas = new double[3];
        double sum = 0;
        for (int i = 0; i < 3; i++) {
            areas[i] = new Vector3d(to[(i + 1) % 3]).cross(to[(i + 2) % 3]).length();
            sum += areas[i];
        }
        for (int i = 0; i < 3; i++) {
            areas[i] /= sum;
        }
        return areas;
    }

    /** Lets the filling run out around the faults. */
    void runOut() {
        for (Spot spot : spots) {
            if (spot != null && spot.depthMm > 0) {
                spot.share = spot.worth * faults.shareAt(spot.x, spot.y, spot.z);
                spot.fill();
            }
        }
    }

    /** Counts what lies too deep to be filled completely among the places that are left. */
    void leaveDeepest() {
        for (Spot spot : spots) {
            if (spot != null && !spot.isBetween && rolling.isTooDeep(spot.depthMm)) {
                faults.add(spot.x, spot.y, spot.z, rolling.radiusMm());
            }
        }
    }

    static long edge(int a, int b) {
        return (long) Math.min(a, b) << 32 | Math.max(a, b);
    }

    /** Which given triangles are in several parts. */
    boolean[] split() {
        int[] parts = new int[rolling.ground().triangleCount()];
        for (int t = 0; t < source.size(); t++) {
            parts[source.get(t)]++;
        }
        boolean[] split = new boolean[parts.length];
        for (int t = 0; t < parts.length; t++) {
            split[t] = parts[t] > 1;
        }
        return split;
    }

    /** Cuts every triangle at the vertices that stand on its edges. */
    void split(LongIntHashMap onEdge) {
        boolean[] touched = new boolean[vertexCount()];
        for (var cursor : onEdge) {
            touched[(int) (cursor.key >>> 32)] = true;
            touched[(int) cursor.key] = true;
        }
        IntArrayList corners = new IntArrayList(triangles.size() + 6 * onEdge.size());
        IntArrayList parts = new IntArrayList(source.size() + 2 * onEdge.size());
        for (int t = 0; t < source.size(); t++) {
            int a = triangles.get(3 * t);
            int b = triangles.get(3 * t + 1);
            int c = triangles.get(3 * t + 2);
            int before = parts.size();
            if ((touched[a] ? 1 : 0) + (touched[b] ? 1 : 0) + (touched[c] ? 1 : 0) < 2) {
                put(corners, a, b, c);
            } else {
                cut(corners, a, b, c, onEdge.getOrDefault(edge(a, b), -1), onEdge.getOrDefault(edge(b, c), -1),
                        onEdge.getOrDefault(edge(c, a), -1));
            }
            for (int i = before; i < corners.size() / 3; i++) {
                parts.add(source.get(t));
            }
        }
        triangles = corners;
        source = parts;
    }

    private static void put(IntArrayList corners, int a, int b, int c) {
        corners.add(a, b);
        corners.add(c);
    }

    private void cut(IntArrayList corners, int a, int b, int c, int ab, int bc, int ca) {
        int cuts = (ab >= 0 ? 1 : 0) + (bc >= 0 ? 1 : 0) + (ca >= 0 ? 1 : 0);
        if (cuts == 0) {
            put(corners, a, b, c);
        } else if (cuts == 3) {
            put(corners, a, ab, ca);
            put(corners, ab, b, bc);
            put(corners, ca, bc, c);
            put(corners, ab, bc, ca);
        } else if (cuts == 1 && ab >= 0 || cuts == 2 && ab >= 0 && ca >= 0) {
            if (cuts == 1) {
                put(corners, a, ab, c);
                put(corners, ab, b, c);
            } else {
                put(corners, a, ab, ca);
                halve(corners, ab, b, c, ca);
            }
        } else {
            cut(corners, b, c, a, bc, ca, ab);
        }
    }

    /** Halves a quadrilateral along its shorter diagonal. */
    private void halve(IntArrayList corners, int p, int q, int r, int s) {
        if (squaredDistance(p, r) <= squaredDistance(q, s)) {
            put(corners, p, q, r);
            put(corners, p, r, s);
        } else {
            put(corners, p, q, s);
            put(corners, q, r, s);
        }
    }

    /** Of the filled edge. */
    double squaredDistance(int a, int b) {
        double sum = 0;
        for (int k = 0; k < 3; k++) {
            double d = filled(a, k) - filled(b, k);
            sum += d * d;
        }
        return sum;
    }
}
