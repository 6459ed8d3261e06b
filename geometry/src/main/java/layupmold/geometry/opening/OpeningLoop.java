package layupmold.geometry.opening;

import java.util.Arrays;
import java.util.HashMap;
import java.util.HashSet;
import java.util.Map;
import java.util.Set;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * One simple loop to be closed, in the direction that a cap on its left would have, with what the face is like around
 * it. Corner {@code i} is joined to corner {@code i + 1}.
 */
final class OpeningLoop {

    /** Face vertices, one a corner. */
    final int[] vertices;
    /** Corner positions. */
    final double[] xyz;
    /** Normal of the face around the two ends of edge i, area weighted, so that a sliver at the edge does not tell. */
    final double[] faceNormals;
    /** Mean length of the face's edges at corner i. */
    final double[] size;
    /** Face triangles that touch a corner, ascending. */
    final int[] fan;
    /** Unit normal of the best plane (Newell's, area weighted), towards the cap's front; zero if there is none. */
    final double[] planeNormal;
    /** A point of the best plane. */
    final double[] center;

    private final Set<Long> faceEdges;

    private OpeningLoop(int[] vertices, double[] xyz, double[] faceNormals, double[] size, int[] fan,
            Set<Long> faceEdges) {
        this.vertices = vertices;
        this.xyz = xyz;
        this.faceNormals = faceNormals;
        this.size = size;
        this.fan = fan;
        this.faceEdges = faceEdges;
        this.center = centerOf(xyz);
        this.planeNormal = newellNormal(xyz, center);
    }

    /** The loop left open by boundary half-edges {@code loop} of the face, which must visit each vertex once. */
    static OpeningLoop of(TriangleMesh face, EdgeTopology topology, int[] loop) {
        int n = loop.length;
        int[] vertices = new int[n];
        double[] xyz = new double[3 * n];
        double[] faceNormals = new double[3 * n];
        Map<Integer, Integer> corner = new HashMap<>();
        for (int i = 0; i < n; i++) {
            vertices[i] = topology.from(loop[n - 1 - i]);
            corner.put(vertices[i], i);
            System.arraycopy(face.xyz(), 3 * vertices[i], xyz, 3 * i, 3);
        }
        int[] fan = fan(topology, loop);
        double[] length = new double[n];
        int[] count = new int[n];
        Set<Long> faceEdges = new HashSet<>();
        double[] normal = new double[3];
        for (int t : fan) {
            Triangles.normal(face.xyz(), topology.from(3 * t), topology.from(3 * t + 1), topology.from(3 * t + 2),
                    normal, 0);
            for (int h = 3 * t; h < 3 * t + 3; h++) {
                int a = topology.from(h);
                int b = topology.to(h);
                Integer i = corner.get(a);
                Integer j = corner.get(b);
                for (int k = 0; k < 3 && i != null; k++) {
                    faceNormals[3 * i + k] += normal[k];
                    faceNormals[3 * ((i + n - 1) % n) + k] += normal[k];
                }
                double l = Triangles.distance(face.xyz(), a, b);
                for (Integer k : new Integer[] {i, j}) {
                    if (k != null) {
                        length[k] += l;
                        count[k]++;
                    }
                }
                if (i != null && j != null) {
                    faceEdges.add(key(i, j));
                }
            }
        }
        for (int i = 0; i < n; i++) {
            length[i] /= count[i];
        }
        return new OpeningLoop(vertices, xyz, faceNormals, length, fan, faceEdges);
    }

    private static int[] fan(EdgeTopology topology, int[] loop) {
        int[] fan = new int[4 * loop.length];
        int size = 0;
        for (int first : loop) {
            // Around the start of the half-edge, and around its end from the other side: the two differ where the
            // opening is pinched.
            for (int turn = 0; turn < 2; turn++) {
                int h = first;
                while (h >= 0) {
                    if (size == fan.length) {
                        fan = Arrays.copyOf(fan, 2 * size);
                    }
                    fan[size++] = h / 3;
                    h = turn == 0 ? topology.twin(EdgeTopology.previous(h)) : topology.twin(EdgeTopology.next(h));
                }
            }
        }
        return Arrays.stream(fan, 0, size).sorted().distinct().toArray();
    }

    int cornerCount() {
        return vertices.length;
    }

    /** True if corners i and j are already joined by an edge of the face. */
    boolean isFaceEdge(int i, int j) {
        return faceEdges.contains(key(i, j));
    }

    private static long key(int i, int j) {
        return (long) Math.min(i, j) << 32 | Math.max(i, j);
    }

    /** Largest distance of a corner from the best plane; infinite if there is no plane. */
    double flatness() {
        if (Triangles.length(planeNormal, 0) == 0) {
            return Double.POSITIVE_INFINITY;
        }
        double most = 0;
        for (int i = 0; i < xyz.length; i += 3) {
            double height = 0;
            for (int k = 0; k < 3; k++) {
                height += planeNormal[k] * (xyz[i + k] - center[k]);
            }
            most = Math.max(most, Math.abs(height));
        }
        return most;
    }

    double perimeter() {
        double sum = 0;
        for (int i = 0; i < vertices.length; i++) {
            sum += Triangles.distance(xyz, i, (i + 1) % vertices.length);
        }
        return sum;
    }

    /** The corners in the best plane's own axes, x and y, so that the cap's front is up. */
    double[] projected() {
        double[] n = planeNormal;
        int k = Math.abs(n[0]) < Math.abs(n[1]) ? Math.abs(n[0]) < Math.abs(n[2]) ? 0 : 2
                : Math.abs(n[1]) < Math.abs(n[2]) ? 1 : 2;
        double[] u = new double[3];
        for (int i = 0; i < 3; i++) {
            u[i] = (i == k ? 1 : 0) - n[k] * n[i];
        }
        double length = Triangles.length(u, 0);
        double[] v = {n[1] * u[2] - n[2] * u[1], n[2] * u[0] - n[0] * u[2], n[0] * u[1] - n[1] * u[0]};
        double[] xy = new double[2 * vertices.length];
        for (int i = 0; i < vertices.length; i++) {
            for (int c = 0; c < 3; c++) {
                double d = xyz[3 * i + c] - center[c];
                xy[2 * i] += d * u[c] / length;
                xy[2 * i + 1] += d * v[c] / length;
            }
        }
        return xy;
    }

    Place place() {
        return Place.at(center[0], center[1], center[2]);
    }

    private static double[] centerOf(double[] xyz) {
        double[] sum = new double[3];
        for (int i = 0; i < xyz.length; i++) {
            sum[i % 3] += xyz[i];
        }
        for (int k = 0; k < 3; k++) {
            sum[k] /= xyz.length / 3;
        }
        return sum;
    }

    private static double[] newellNormal(double[] xyz, double[] center) {
        double[] normal = new double[3];
        int n = xyz.length / 3;
        for (int i = 0; i < n; i++) {
            int a = 3 * i;
            int b = 3 * ((i + 1) % n);
            for (int k = 0; k < 3; k++) {
                int u = (k + 1) % 3;
                int v = (k + 2) % 3;
                normal[k] += (xyz[a + u] - center[u]) * (xyz[b + v] - center[v])
                        - (xyz[a + v] - center[v]) * (xyz[b + u] - center[u]);
            }
        }
        double length = Triangles.length(normal, 0);
        for (int k = 0; k < 3 && length > 0; k++) {
            normal[k] /= length;
        }
        return normal;
    }
}
