package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.LongArrayList;
import com.carrotsearch.hppc.LongIntHashMap;
import java.util.Arrays;
import layupmold.geometry.parallel.Parallel;
import org.joml.Vector3d;

/**
 * Splits triangles whose corners lie on the offset surface but whose sides or middles leave it, until none leaves it by
 * more than a tolerance: at a crease the new vertex goes where the tangent planes of the side's ends meet.
 *
 * <p>Sides are split for all triangles that share them, so the mesh stays closed where it was. A few rounds, each O(m)
 * field values for m triangles looked at.
 */
final class TargetRefinement {

    private static final int GRAIN = 1 << 9;
    private static final int ROUNDS = 7;
    /** New vertices go no farther from their side's middle than this share of its length. */
    private static final double REACH_SHARE = 0.5;
    private static final double REACH_MM = 0.3;
    /** Parts may turn by about 75° from the triangle that they replace. */
    private static final double LEAST_COSINE = 0.25;
    /** Below this squared sine two tangent planes say nothing about a crease. */
    private static final double LEAST_SINE_SQUARED = 0.01;
    /** Sides shorter than this are not split. */
    private static final double LEAST_SIDE_MM = 0.1;

    private final PatchMesh mesh;
    private final SurfacePoints points;
    private final OffsetField field;
    private final BannedPlaces banned;
    private final double toleranceMm;
    /** Triangles to look at, ascending. */
    private IntArrayList active;
    private LongArrayList sides;
    /** For each active triangle's sides their index in {@link #sides}. */
    private int[] sideOf;
    /** For each side the active triangles beside it, or -1. */
    private int[] beside;
    private double[] places;
    private boolean[] split;

    private TargetRefinement(
            PatchMesh mesh, IntArrayList active, SurfacePoints points, BannedPlaces banned,
            double toleranceMm) {
        this.banned = banned;
        this.mesh = mesh;
        this.active = active;
        this.points = points;
        this.field = points.field();
        this.toleranceMm = toleranceMm;
    }

    /**
     * @param mesh refined in place; parts keep their triangle's source, in the order of the triangles
     * @param active triangles to look at, ascending
     */
    static void refine(
            PatchMesh mesh, IntArrayList active, SurfacePoints points, BannedPlaces banned, double toleranceMm) {
        TargetRefinement refinement = new TargetRefinement(mesh, active, points, banned, toleranceMm);
        for (int round = 0; round < ROUNDS && refinement.active.size() > 0; round++) {
            refinement.collectSides();
            refinement.look();
            refinement.split();
        }
    }

    private int corner(int triangle, int k) {
        return mesh.triangles.get(3 * triangle + k);
    }

    private static long key(int a, int b) {
        return (long) Math.min(a, b) << 32 | Math.max(a, b);
    }

    private void collectSides() {
        LongIntHashMap known = new LongIntHashMap(2 * active.size());
        sides = new LongArrayList(2 * active.size());
        sideOf = new int[3 * active.size()];
        beside = new int[6 * active.size()];
        Arrays.fill(beside, -1);
        for (int i = 0; i < sideOf.length; i++) {
            int t = active.get(i / 3);
            long key = key(corner(t, i % 3), corner(t, (i + 1) % 3));
            int at = known.indexOf(key);
            if (known.indexExists(at)) {
                sideOf[i] = known.indexGet(at);
            } else {
                sideOf[i] = sides.size();
                known.indexInsert(at, key, sides.size());
                sides.add(key);
            }
            int slot = 2 * sideOf[i];
            beside[beside[slot] < 0 ? slot : slot + 1] = t;
        }
    }

    /** Decides which sides to split, and where. */
    private void look() {
        int n = sides.size();
        places = new double[3 * n];
        split = new boolean[n];
        Parallel.forRanges(n, GRAIN, (chunk, from, to) -> {
            OffsetField.Sample sample = new OffsetField.Sample();
            for (int i = from; i < to; i++) {
                split[i] = length(i) >= LEAST_SIDE_MM && misses(i, sample) && place(i, sample);
            }
        });
    }

    private int low(int side) {
        return (int) (sides.get(side) >>> 32);
    }

    private int high(int side) {
        return (int) sides.get(side);
    }

    private double length(int side) {
        double sum = 0;
        for (int k = 0; k < 3; k++) {
            double d = mesh.get(low(side), k) - mesh.get(high(side), k);
            sum += d * d;
        }
        return Math.sqrt(sum);
    }

    private boolean misses(int side, OffsetField.Sample sample) {
        Vector3d middle = mesh.vertex(low(side)).lerp(mesh.vertex(high(side)), 0.5);
        field.at(middle.x, middle.y, middle.z, sample);
        return Math.abs(sample.miss()) > toleranceMm && !sample.beyondBoundary;
    }

    /** Finds the place of a side's new vertex: on a crease, else below its middle; false if there is none. */
    private boolean place(int side, OffsetField.Sample sample) {
        double[] crease = onCrease(low(side), high(side));
        if (crease != null && isPlace(side, crease, sample)) {
            return true;
        }
        Vector3d middle = mesh.vertex(low(side)).lerp(mesh.vertex(high(side)), 0.5);
        return isPlace(side, new double[] {middle.x, middle.y, middle.z}, sample);
    }

    private boolean isPlace(int side, double[] p, OffsetField.Sample sample) {
        if (!field.project(p, Math.min(REACH_MM, REACH_SHARE * length(side)), sample)
                || banned.contains(p[0], p[1], p[2])
                || folds(side, p, beside[2 * side]) || folds(side, p, beside[2 * side + 1])) {
            return false;
        }
        System.arraycopy(p, 0, places, 3 * side, 3);
        return true;
    }

    /** Whether a new vertex at {@code p} would turn a part of triangle {@code t} away from the whole. */
    private boolean folds(int side, double[] p, int t) {
        if (t < 0) {
            return false;
        }
        int k = 0;
        while (key(corner(t, k), corner(t, (k + 1) % 3)) != sides.get(side)) {
            k++;
        }
        Vector3d a = mesh.vertex(corner(t, k));
        Vector3d b = mesh.vertex(corner(t, (k + 1) % 3));
        Vector3d c = mesh.vertex(corner(t, (k + 2) % 3));
        Vector3d m = new Vector3d(p[0], p[1], p[2]);
        Vector3d whole = normal(a, b, c);
        return whole.dot(normal(a, m, c)) < LEAST_COSINE || whole.dot(normal(m, b, c)) < LEAST_COSINE;
    }

    private static Vector3d normal(Vector3d a, Vector3d b, Vector3d c) {
        return b.sub(a, new Vector3d()).cross(c.sub(a, new Vector3d())).normalize();
    }

    /** The point nearest to the middle on the tangent planes at both ends, or null if they are nearly one. */
    private double[] onCrease(int a, int b) {
        double[] m = {points.normal(a, 0), points.normal(a, 1), points.normal(a, 2)};
        double[] n = {points.normal(b, 0), points.normal(b, 1), points.normal(b, 2)};
        double cosine = 0;
        double da = 0;
        double db = 0;
        double square = 0;
        for (int k = 0; k < 3; k++) {
            double half = (mesh.get(a, k) - mesh.get(b, k)) / 2;
            cosine += m[k] * n[k];
            da += m[k] * half;
            db -= n[k] * half;
            square += half * half;
        }
        double sine = 1 - cosine * cosine;
        if (sine < LEAST_SINE_SQUARED) {
            return null;
        }
        double alongM = (da - cosine * db) / sine;
        double alongN = (db - cosine * da) / sine;
        double[] p = new double[3];
        double far = 0;
        for (int k = 0; k < 3; k++) {
            double step = alongM * m[k] + alongN * n[k];
            p[k] = (mesh.get(a, k) + mesh.get(b, k)) / 2 + step;
            far += step * step;
        }
        return far > Math.min(square, REACH_MM * REACH_MM) ? null : p;
    }

    /** Splits all triangles along the chosen sides; their parts are looked at next. */
    private void split() {
        LongIntHashMap middle = new LongIntHashMap();
        boolean[] touched = new boolean[mesh.vertexCount()];
        for (int i = 0; i < split.length; i++) {
            if (split[i]) {
                touched[low(i)] = true;
                touched[high(i)] = true;
                middle.put(sides.get(i), points.add(new double[] {places[3 * i], places[3 * i + 1], places[3 * i + 2]}));
            }
        }
        IntArrayList before = mesh.triangles;
        IntArrayList sources = mesh.sources;
        mesh.replaceTriangles(new IntArrayList(before.size()), new IntArrayList(sources.size()));
        active = new IntArrayList();
        int[] m = new int[3];
        for (int t = 0; t < sources.size(); t++) {
            int[] v = {before.get(3 * t), before.get(3 * t + 1), before.get(3 * t + 2)};
            int cuts = 0;
            for (int k = 0; k < 3; k++) {
                m[k] = touched[v[k]] && touched[v[(k + 1) % 3]] ? middle.getOrDefault(key(v[k], v[(k + 1) % 3]), -1) : -1;
                cuts += m[k] >= 0 ? 1 : 0;
            }
            addParts(v, m, cuts, sources.get(t));
        }
    }

    private void addParts(int[] v, int[] m, int cuts, int source) {
        if (cuts == 0) {
            mesh.addTriangle(v[0], v[1], v[2], source);
            return;
        }
        int first = mesh.sources.size();
        if (cuts == 3) {
            mesh.addTriangle(v[0], m[0], m[2], source);
            mesh.addTriangle(v[1], m[1], m[0], source);
            mesh.addTriangle(v[2], m[2], m[1], source);
            mesh.addTriangle(m[0], m[1], m[2], source);
        } else {
            // Turned so that side 0 is cut and, of two cuts, side 2 is not.
            int k = 0;
            while (m[k] < 0 || cuts == 2 && m[(k + 1) % 3] < 0) {
                k++;
            }
            int a = v[k];
            int b = v[(k + 1) % 3];
            int c = v[(k + 2) % 3];
            int ab = m[k];
            int bc = m[(k + 1) % 3];
            if (cuts == 1) {
                mesh.addTriangle(a, ab, c, source);
                mesh.addTriangle(ab, b, c, source);
            } else {
                mesh.addTriangle(b, bc, ab, source);
                mesh.addTriangle(a, ab, bc, source);
                mesh.addTriangle(a, bc, c, source);
            }
        }
        for (int t = first; t < mesh.sources.size(); t++) {
            active.add(t);
        }
    }
}
