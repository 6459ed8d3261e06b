package layupmold.geometry.congruence;

import java.util.Arrays;
import java.util.Optional;
import org.joml.AxisAngle4d;
import org.joml.Matrix3d;
import org.joml.Vector3d;

/** Holds a guessed isometry against two shapes: pairs the vertices, improves the map, and checks the promise. */
final class Correspondence {

    /** A guess from three points is off by the tolerance times a lever; this much is looked at before it is improved. */
    private static final double LOOSE = 8;
    private static final int SAMPLE = 48;
    private static final int IMPROVEMENTS = 3;

    private final WeldedShape a;
    private final WeldedShape b;
    private final double tolerance;
    private final VertexGrid grid;

    Correspondence(WeldedShape a, WeldedShape b, double tolerance) {
        this.a = a;
        this.b = b;
        this.tolerance = tolerance;
        this.grid = new VertexGrid(b.mesh.xyz(), b.mesh.bounds(), LOOSE * tolerance);
    }

    /** The improved guess, if it keeps the promise. O(n log n); most wrong guesses end after a few vertices. */
    Optional<Congruence.Match> verify(Isometry guess) {
        if (!fitsSample(guess)) {
            return Optional.empty();
        }
        Isometry map = guess;
        int[] partner = pair(map, LOOSE * tolerance);
        for (int i = 0; i < IMPROVEMENTS && partner != null; i++) {
            map = improved(map, partner);
            partner = pair(map, i < IMPROVEMENTS - 1 ? LOOSE * tolerance : tolerance);
        }
        if (partner == null || !isOneToOne(partner) || !takesTrianglesToTriangles(partner)) {
            return Optional.empty();
        }
        double deviation = 0;
        for (int v = 0; v < partner.length; v++) {
            deviation = Math.max(deviation, map.apply(a.mesh.vertex(v)).distance(b.mesh.vertex(partner[v])));
        }
        return Optional.of(new Congruence.Match(map, deviation));
    }

    private boolean fitsSample(Isometry guess) {
        int step = Math.max(1, a.vertexCount() / SAMPLE);
        for (int v = 0; v < a.vertexCount(); v += step) {
            if (grid.nearest(guess.apply(a.mesh.vertex(v)), LOOSE * tolerance) < 0) {
                return false;
            }
        }
        return true;
    }

    /** For each vertex the nearest one of the other shape, or null if one has none. */
    private int[] pair(Isometry map, double within) {
        int[] partner = new int[a.vertexCount()];
        for (int v = 0; v < partner.length; v++) {
            partner[v] = grid.nearest(map.apply(a.mesh.vertex(v)), within);
            if (partner[v] < 0) {
                return null;
            }
        }
        return partner;
    }

    /** One Gauss-Newton step towards the least sum of squares: a small turn about the middle, which goes to the middle. */
    private Isometry improved(Isometry map, int[] partner) {
        Matrix3d normal = new Matrix3d().zero();
        Vector3d right = new Vector3d();
        Vector3d x = new Vector3d();
        for (int v = 0; v < partner.length; v++) {
            map.matrix().transformDirection(a.mesh.vertex(v).sub(a.middle), x);
            Vector3d rest = b.mesh.vertex(partner[v]).sub(b.middle).sub(x);
            right.add(x.cross(rest, rest));
            double square = x.lengthSquared();
            normal.add(new Matrix3d(
                    square - x.x * x.x, -x.x * x.y, -x.x * x.z,
                    -x.y * x.x, square - x.y * x.y, -x.y * x.z,
                    -x.z * x.x, -x.z * x.y, square - x.z * x.z));
        }
        Vector3d turn = normal.invert().transform(right);
        double angle = turn.length();
        Matrix3d linear = map.matrix().get3x3(new Matrix3d());
        if (angle > 1e-15 && Double.isFinite(angle)) {
            Vector3d axis = turn.div(angle, new Vector3d());
            linear = new Matrix3d().rotation(new AxisAngle4d(angle, axis.x, axis.y, axis.z)).mul(linear);
        }
        return Frame.placed(linear, a.middle, b.middle);
    }

    private static boolean isOneToOne(int[] partner) {
        boolean[] taken = new boolean[partner.length];
        for (int v : partner) {
            if (taken[v]) {
                return false;
            }
            taken[v] = true;
        }
        return true;
    }

    private boolean takesTrianglesToTriangles(int[] partner) {
        boolean[] taken = new boolean[b.triangleCount()];
        int[] corners = a.mesh.triangles();
        int[] wanted = new int[3];
        for (int t = 0; t < corners.length; t += 3) {
            for (int k = 0; k < 3; k++) {
                wanted[k] = partner[corners[t + k]];
            }
            Arrays.sort(wanted);
            if (!take(wanted, taken)) {
                return false;
            }
        }
        return true;
    }

    private boolean take(int[] wanted, boolean[] taken) {
        int[] corners = b.mesh.triangles();
        int[] found = new int[3];
        for (int i = b.around.start(wanted[0]); i < b.around.start(wanted[0] + 1); i++) {
            int t = b.around.triangle(i);
            System.arraycopy(corners, 3 * t, found, 0, 3);
            Arrays.sort(found);
            if (!taken[t] && Arrays.equals(found, wanted)) {
                taken[t] = true;
                return true;
            }
        }
        return false;
    }
}
