package layupmold.geometry.face;

import java.util.Arrays;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * A mesh cut into small, nearly flat, connected pieces that never reach across a crease: what is measured by rays and
 * labelled as one.
 *
 * @param count number of patches
 * @param ofTriangle patch of each triangle
 * @param probe the triangle nearest each patch's centre, which speaks for it
 * @param area area of each patch, mm²
 */
record Patches(int count, int[] ofTriangle, int[] probe, double[] area) {

    /** Patches aimed at; parts with many creases get more. */
    private static final int TARGET = 12_000;
    private static final double CONE_COS = Math.cos(Math.toRadians(15));
    private static final double CREASE = Math.toRadians(20);

    /** Grows patches breadth first from the lowest free triangle; O(n). */
    static Patches of(TriangleMesh mesh, EdgeTopology topology, EdgeAngles edges) {
        int n = mesh.triangleCount();
        double total = Arrays.stream(edges.areas()).sum();
        double limit = total / TARGET;
        int[] ofTriangle = new int[n];
        Arrays.fill(ofTriangle, -1);
        int[] queue = new int[n];
        int count = 0;
        for (int first = 0; first < n; first++) {
            if (ofTriangle[first] >= 0) {
                continue;
            }
            double grown = edges.areas()[first];
            ofTriangle[first] = count;
            queue[0] = first;
            int tail = 1;
            for (int i = 0; i < tail && grown < limit; i++) {
                for (int h = 3 * queue[i]; h < 3 * queue[i] + 3; h++) {
                    int g = topology.twin(h);
                    if (g < 0 || ofTriangle[g / 3] >= 0 || Math.abs(edges.turn()[h]) > CREASE
                            || edges.cosine(first, g / 3) < CONE_COS) {
                        continue;
                    }
                    ofTriangle[g / 3] = count;
                    grown += edges.areas()[g / 3];
                    queue[tail++] = g / 3;
                }
            }
            count++;
        }
        return measured(mesh, edges, ofTriangle, count);
    }

    private static Patches measured(TriangleMesh mesh, EdgeAngles edges, int[] ofTriangle, int count) {
        double[] area = new double[count];
        double[] centre = new double[3 * count];
        double[] middle = new double[3];
        for (int t = 0; t < ofTriangle.length; t++) {
            int p = ofTriangle[t];
            // A floor keeps patches of degenerate triangles from dividing by zero.
            double a = Math.max(edges.areas()[t], 1e-12);
            middle(mesh, t, middle);
            area[p] += a;
            for (int k = 0; k < 3; k++) {
                centre[3 * p + k] += a * middle[k];
            }
        }
        int[] probe = new int[count];
        double[] nearest = new double[count];
        Arrays.fill(nearest, Double.POSITIVE_INFINITY);
        for (int t = 0; t < ofTriangle.length; t++) {
            int p = ofTriangle[t];
            middle(mesh, t, middle);
            double d = 0;
            for (int k = 0; k < 3; k++) {
                double delta = middle[k] - centre[3 * p + k] / area[p];
                d += delta * delta;
            }
            if (d < nearest[p] && edges.areas()[t] > 0) {
                nearest[p] = d;
                probe[p] = t;
            } else if (nearest[p] == Double.POSITIVE_INFINITY) {
                probe[p] = t;
            }
        }
        return new Patches(count, ofTriangle, probe, area);
    }

    /** Writes the centroid of triangle {@code t} into {@code out}. */
    static void middle(TriangleMesh mesh, int t, double[] out) {
        double[] p = mesh.xyz();
        int a = 3 * mesh.triangles()[3 * t];
        int b = 3 * mesh.triangles()[3 * t + 1];
        int c = 3 * mesh.triangles()[3 * t + 2];
        for (int k = 0; k < 3; k++) {
            out[k] = (p[a + k] + p[b + k] + p[c + k]) / 3;
        }
    }
}
