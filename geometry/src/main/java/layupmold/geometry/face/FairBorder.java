package layupmold.geometry.face;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * Evens out a face's border where it zigzags from triangle to triangle: marching cubes make no edge of a sharp or closely
 * rounded rim, but a row of facets that waver about it.
 *
 * <p>The border's corners move onto the mean of the line around them, weighed by a bell curve over its length and freed
 * of most of the shrinking as Taubin does ("A signal processing approach to fair surface design", 1995); corners inside
 * the face stay.
 */
final class FairBorder {

    /** Half the length of border that is judged at once, in scales. */
    private static final double WINDOW = 2;
    /** Turning to and fro in a window: that of a square groove that runs out over the rim is 2 pi. */
    private static final double MOST_TURN = 8;
    /** A loop of which more than this share zigzags is evened all around. */
    private static final double MUCH = 0.2;
    private static final int LEAST_CORNERS = 8;
    /** Points nearer to each other than this share of a scale do not turn. */
    private static final double SAME = 0.02;
    private static final double SIGMA = 0.75;
    private static final double BELL = 3;
    /** Farthest a corner moves, in scales. */
    private static final double MOST_MOVE = 0.4;
    private static final int TRIES = 10;
    /** Least cosine between a triangle's normal before and after. */
    private static final double LEAST_COS = 0.3;
    private static final double LEAST_AREA = 0.05;

    private final FaceMesh face;
    private final double scaleMm;
    private final double[] move;

    private FairBorder(FaceMesh face, double scaleMm) {
        this.face = face;
        this.scaleMm = scaleMm;
        this.move = new double[3 * face.mesh().vertexCount()];
    }

    /**
     * O(n) and, for b corners of the border, O(b) times those within a few scales.
     *
     * @param scaleMm the wall's thickness, or what else sets the size of what is no shape but noise
     * @return the corners of {@code face} after it, three numbers each; null if nothing zigzags
     */
    static double[] of(FaceMesh face, double scaleMm) {
        FairBorder border = new FairBorder(face, scaleMm);
        boolean any = false;
        for (int[] loop : face.topology().boundaryLoops()) {
            any |= loop.length >= LEAST_CORNERS && border.even(loop);
        }
        return any ? border.moved() : null;
    }

    private boolean even(int[] loop) {
        int n = loop.length;
        double[] xyz = new double[3 * n];
        double[] length = new double[n];
        for (int i = 0; i < n; i++) {
            Vector3d at = corner(loop[i]);
            xyz[3 * i] = at.x;
            xyz[3 * i + 1] = at.y;
            xyz[3 * i + 2] = at.z;
            length[i] = at.distance(corner(loop[(i + 1) % n]));
        }
        double[] share = shares(loop, length);
        if (share == null) {
            return false;
        }
        double[] once = mean(xyz, length);
        double[] twice = mean(once, length);
        for (int i = 0; i < n; i++) {
            Vector3d way = new Vector3d();
            for (int k = 0; k < 3; k++) {
                way.setComponent(k, share[i] * (2 * once[3 * i + k] - twice[3 * i + k] - xyz[3 * i + k]));
            }
            double most = MOST_MOVE * scaleMm;
            way.mul(Math.min(1, most / Math.max(way.length(), 1e-300)));
            int v = 3 * face.topology().from(loop[i]);
            move[v] = way.x;
            move[v + 1] = way.y;
            move[v + 2] = way.z;
        }
        return true;
    }

    private Vector3d corner(int h) {
        return face.mesh().vertex(face.topology().from(h));
    }

    /** By corner, how much of its way it goes: all where the border zigzags, less and less beside; null if nowhere. */
    private double[] shares(int[] loop, double[] length) {
        int n = loop.length;
        double[] turn = turns(loop);
        double[] share = new double[n];
        int count = 0;
        for (int i = 0; i < n; i++) {
            share[i] = isJagged(length, turn, i) ? 1 : 0;
            count += share[i] > 0 ? 1 : 0;
        }
        if (count == 0) {
            return null;
        }
        if (count > MUCH * n) {
            Arrays.fill(share, 1);
            return share;
        }
        for (int lap = 0; lap < 2 * n; lap++) {
            int i = lap % n;
            int j = (i + 1) % n;
            share[j] = Math.max(share[j], share[i] - length[i] / scaleMm);
        }
        for (int lap = 2 * n - 1; lap >= 0; lap--) {
            int i = lap % n;
            int j = (i + 1) % n;
            share[i] = Math.max(share[i], share[j] - length[i] / scaleMm);
        }
        return share;
    }

    /** Angles at the corners, positive to the left of the way. */
    private double[] turns(int[] loop) {
        int n = loop.length;
        double[] turn = new double[n];
        Vector3d last = corner(loop[n - 1]);
        Vector3d in = null;
        for (int i = 0; i < 2 * n; i++) {
            Vector3d at = corner(loop[i % n]);
            if (at.distance(last) < SAME * scaleMm) {
                continue;
            }
            Vector3d out = new Vector3d(at).sub(last);
            if (in != null && i >= n) {
                int h = loop[(i - 1) % n];
                double sense = in.cross(out, new Vector3d()).dot(face.mesh().areaNormal(h / 3));
                turn[(i - 1) % n] = Math.copySign(in.angle(out), sense);
            }
            in = out;
            last = at;
        }
        return turn;
    }

    private boolean isJagged(double[] length, double[] turn, int i) {
        int n = length.length;
        double sum = Math.abs(turn[i]);
        double net = turn[i];
        int count = 1;
        int from = i;
        for (double gone = 0; gone < WINDOW * scaleMm && count < n; count++) {
            from = (from + n - 1) % n;
            gone += length[from];
            sum += Math.abs(turn[from]);
            net += turn[from];
        }
        int to = i;
        for (double gone = 0; gone < WINDOW * scaleMm && count < n; count++) {
            gone += length[to];
            to = (to + 1) % n;
            sum += Math.abs(turn[to]);
            net += turn[to];
        }
        return sum - Math.abs(net) > MOST_TURN;
    }

    /** Each corner's mean of the line around it. */
    private double[] mean(double[] xyz, double[] length) {
        int n = length.length;
        double[] mean = new double[3 * n];
        double sigma = SIGMA * scaleMm;
        for (int i = 0; i < n; i++) {
            double[] sum = new double[4];
            add(xyz, i, (length[i] + length[(i + n - 1) % n]) / 2, 0, sigma, sum);
            double gone = 0;
            for (int k = 1; k < n / 2 && gone < BELL * sigma; k++) {
                int j = (i + k) % n;
                gone += length[(j + n - 1) % n];
                add(xyz, j, (length[j] + length[(j + n - 1) % n]) / 2, gone, sigma, sum);
            }
            gone = 0;
            for (int k = 1; k < n / 2 && gone < BELL * sigma; k++) {
                int j = (i + n - k) % n;
                gone += length[j];
                add(xyz, j, (length[j] + length[(j + n - 1) % n]) / 2, gone, sigma, sum);
            }
            for (int k = 0; k < 3; k++) {
                mean[3 * i + k] = sum[k] / sum[3];
            }
        }
        return mean;
    }

    private static void add(double[] xyz, int j, double piece, double gone, double sigma, double[] sum) {
        double weight = piece * Math.exp(-gone * gone / (2 * sigma * sigma));
        for (int k = 0; k < 3; k++) {
            sum[k] += weight * xyz[3 * j + k];
        }
        sum[3] += weight;
    }

    /** Corners whose triangles would turn over go less far. */
    private double[] moved() {
        double[] share = new double[face.mesh().vertexCount()];
        Arrays.fill(share, 1);
        for (int i = 0; ; i++) {
            double[] xyz = face.mesh().xyz().clone();
            for (int v = 0; v < xyz.length; v++) {
                xyz[v] += share[v / 3] * move[v];
            }
            TriangleMesh mesh = new TriangleMesh(xyz, face.mesh().triangles());
            if (!hold(mesh, share, i == TRIES)) {
                return xyz;
            }
        }
    }

    private boolean hold(TriangleMesh mesh, double[] share, boolean whole) {
        boolean any = false;
        for (int t = 0; t < mesh.triangleCount(); t++) {
            if (!isMoved(t, share)) {
                continue;
            }
            Vector3d before = face.mesh().areaNormal(t);
            Vector3d after = mesh.areaNormal(t);
            if (after.dot(before) < LEAST_COS * after.length() * before.length()
                    || after.length() < LEAST_AREA * before.length()) {
                for (int k = 0; k < 3; k++) {
                    share[mesh.triangles()[3 * t + k]] *= whole ? 0 : 0.7;
                }
                any = true;
            }
        }
        return any;
    }

    private boolean isMoved(int t, double[] share) {
        for (int k = 0; k < 3; k++) {
            int v = face.mesh().triangles()[3 * t + k];
            if (share[v] > 0 && (move[3 * v] != 0 || move[3 * v + 1] != 0 || move[3 * v + 2] != 0)) {
                return true;
            }
        }
        return false;
    }
}
