package layupmold.geometry.face;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * Evens out a face's border where it zigzags ({@link Zigzags}): marching cubes make no edge of a sharp or closely rounded
 * rim, but a row of facets that waver about it.
 *
 * <p>The border's corners move onto the mean of the line around them, weighed by a bell curve over its length and freed
 * of most of the shrinking as Taubin does ("A signal processing approach to fair surface design", 1995).
 */
final class FairBorder {

    private static final double SIGMA = 0.75;
    private static final double BELL = 3;
    /** Farthest a corner moves, in scales. */
    private static final double MOST_MOVE = 0.4;
    /** Rings of corners inside the border that follow it, each by this share of the one before. */
    private static final int RINGS = 5;
    private static final double LESS = 0.75;
    private static final int TRIES = 10;
    /** Least cosine between a triangle's normal before and after. */
    private static final double LEAST_COS = 0.5;
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
            any |= border.even(loop);
        }
        if (!any) {
            return null;
        }
        border.drawAlong();
        return border.moved();
    }

    private boolean even(int[] loop) {
        int n = loop.length;
        double[] xyz = new double[3 * n];
        double[] length = Zigzags.lengths(face, loop);
        for (int i = 0; i < n; i++) {
            Vector3d at = face.mesh().vertex(face.topology().from(loop[i]));
            xyz[3 * i] = at.x;
            xyz[3 * i + 1] = at.y;
            xyz[3 * i + 2] = at.z;
        }
        double[] share = Zigzags.shares(face, loop, length, scaleMm);
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

    /** Corners inside the face follow the border, along the surface and less and less, so that nothing folds. */
    private void drawAlong() {
        int[] triangles = face.mesh().triangles();
        int vertices = face.mesh().vertexCount();
        int[] ring = new int[vertices];
        boolean[] border = face.topology().borderVertices(vertices);
        for (int v = 0; v < vertices; v++) {
            ring[v] = border[v] ? 0 : Integer.MAX_VALUE;
        }
        for (int next = 1; next <= RINGS; next++) {
            double[] sum = new double[3 * vertices];
            double[] normal = new double[3 * vertices];
            int[] count = new int[vertices];
            for (int h = 0; h < triangles.length; h++) {
                int v = triangles[h];
                if (ring[v] < next) {
                    continue;
                }
                Vector3d n = face.mesh().areaNormal(h / 3);
                for (int k = 0; k < 3; k++) {
                    normal[3 * v + k] += n.get(k);
                }
                for (int g : new int[] {EdgeTopology.next(h), EdgeTopology.previous(h)}) {
                    int u = triangles[g];
                    if (ring[u] == next - 1) {
                        count[v]++;
                        for (int k = 0; k < 3; k++) {
                            sum[3 * v + k] += move[3 * u + k];
                        }
                    }
                }
            }
            for (int v = 0; v < vertices; v++) {
                if (count[v] > 0) {
                    ring[v] = next;
                    follow(v, sum, normal, LESS / count[v]);
                }
            }
        }
    }

    private void follow(int v, double[] sum, double[] normal, double share) {
        Vector3d way = new Vector3d(sum[3 * v], sum[3 * v + 1], sum[3 * v + 2]).mul(share);
        Vector3d n = new Vector3d(normal[3 * v], normal[3 * v + 1], normal[3 * v + 2]);
        if (n.lengthSquared() > 0) {
            way.fma(-way.dot(n) / n.lengthSquared(), n);
        }
        move[3 * v] = way.x;
        move[3 * v + 1] = way.y;
        move[3 * v + 2] = way.z;
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
