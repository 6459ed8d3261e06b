package layupmold.geometry.shapes;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * Solids of revolution about z from a profile of (radius, height) pairs; four segments give a square prism whose sides
 * lie √½ of the radius from the axis.
 */
public final class Revolved {

    private final List<double[]> profile = new ArrayList<>();

    /** Appends a point of the profile. Walk it with the solid on the left, seen with r to the right and z up. */
    public Revolved to(double r, double z) {
        profile.add(new double[] {r, z});
        return this;
    }

    /**
     * Appends an arc around (r, z) from one angle to another, degrees from the r axis towards z; ends included.
     */
    public Revolved arc(double r, double z, double radius, double fromDeg, double toDeg, int steps) {
        for (int i = 0; i <= steps; i++) {
            double a = Math.toRadians(fromDeg + (toDeg - fromDeg) * i / steps);
            double x = r + radius * Math.cos(a);
            to(Math.abs(x) < 1e-9 ? 0 : x, z + radius * Math.sin(a));
        }
        return this;
    }

    /** Turns the profile, whose ends lie on the axis, into a closed solid. */
    public TriangleMesh solid(int segments) {
        int n = profile.size();
        double[] xyz = new double[3 * (2 + (n - 2) * segments)];
        int[] triangles = new int[6 * segments * (n - 2)];
        put(xyz, 0, 0, 0, profile.get(0)[1]);
        put(xyz, 1, 0, 0, profile.get(n - 1)[1]);
        for (int i = 1; i < n - 1; i++) {
            for (int j = 0; j < segments; j++) {
                double a = 2 * Math.PI * (j + 0.5) / segments;
                double r = profile.get(i)[0];
                put(xyz, 2 + (i - 1) * segments + j, r * Math.cos(a), r * Math.sin(a), profile.get(i)[1]);
            }
        }
        int k = 0;
        for (int j = 0; j < segments; j++) {
            int next = (j + 1) % segments;
            k = put(triangles, k, 0, 2 + next, 2 + j);
            for (int i = 1; i < n - 2; i++) {
                int a = 2 + (i - 1) * segments + j;
                int b = 2 + (i - 1) * segments + next;
                k = put(triangles, k, a, b, b + segments);
                k = put(triangles, k, a, b + segments, a + segments);
            }
            k = put(triangles, k, 1, 2 + (n - 3) * segments + j, 2 + (n - 3) * segments + next);
        }
        return new TriangleMesh(xyz, Arrays.copyOf(triangles, k));
    }

    /** Turns the profile, closed from its last point to its first and nowhere on the axis, into a ring. */
    public TriangleMesh ring(int segments) {
        int n = profile.size();
        double[] xyz = new double[3 * n * segments];
        int[] triangles = new int[6 * n * segments];
        int k = 0;
        for (int i = 0; i < n; i++) {
            for (int j = 0; j < segments; j++) {
                double a = 2 * Math.PI * (j + 0.5) / segments;
                double r = profile.get(i)[0];
                put(xyz, i * segments + j, r * Math.cos(a), r * Math.sin(a), profile.get(i)[1]);
                int here = i * segments + j;
                int beside = i * segments + (j + 1) % segments;
                int above = (i + 1) % n * segments;
                k = put(triangles, k, here, beside, above + (j + 1) % segments);
                k = put(triangles, k, here, above + (j + 1) % segments, above + j);
            }
        }
        return new TriangleMesh(xyz, triangles);
    }

    private static void put(double[] xyz, int v, double x, double y, double z) {
        xyz[3 * v] = x;
        xyz[3 * v + 1] = y;
        xyz[3 * v + 2] = z;
    }

    private static int put(int[] triangles, int n, int a, int b, int c) {
        triangles[n] = a;
        triangles[n + 1] = b;
        triangles[n + 2] = c;
        return n + 3;
    }
}
