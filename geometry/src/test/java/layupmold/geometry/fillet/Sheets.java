package layupmold.geometry.fillet;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import layupmold.geometry.flange.FlangedSurface;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/** Open sheets of few large flat pieces, cloth on their fronts. */
final class Sheets {

    private final Map<List<Long>, Integer> index = new HashMap<>();
    private final List<Vector3d> points = new ArrayList<>();
    private final List<Integer> corners = new ArrayList<>();

    /** A box without a lid, open towards +z, its floor at z = 0 around the z axis; cloth inside. */
    static TriangleMesh tray(double length, double width, double height, int cells) {
        Sheets s = new Sheets();
        double a = length / 2;
        double b = width / 2;
        s.grid(v(-a, -b, 0), v(length, 0, 0), v(0, width, 0), cells);
        s.grid(v(-a, -b, 0), v(0, 0, height), v(length, 0, 0), cells);
        s.grid(v(a, b, 0), v(0, 0, height), v(-length, 0, 0), cells);
        s.grid(v(a, -b, 0), v(0, 0, height), v(0, width, 0), cells);
        s.grid(v(-a, b, 0), v(0, 0, height), v(0, -width, 0), cells);
        return s.mesh();
    }

    /** A straight profile of x, z pairs along y, cloth above where x grows. */
    static TriangleMesh profile(double[] xz, double breadth, int cells) {
        Sheets s = new Sheets();
        for (int i = 0; i + 3 < xz.length; i += 2) {
            s.grid(v(xz[i], 0, xz[i + 1]), v(xz[i + 2] - xz[i], 0, xz[i + 3] - xz[i + 1]), v(0, breadth, 0), cells);
        }
        return s.mesh();
    }

    /** A level plate at z = 0 with a pit of rectangular plan in its middle; where the floor is wider the sides undercut. */
    static TriangleMesh pit(double plate, double mouthX, double mouthY, double floorX, double floorY, double depth,
            int cells) {
        Sheets s = new Sheets();
        double[] signs = {-1, -1, 1, -1, 1, 1, -1, 1};
        for (int i = 0; i < 8; i += 2) {
            int k = (i + 2) % 8;
            Vector3d a = v(signs[i] * plate / 2, signs[i + 1] * plate / 2, 0);
            Vector3d b = v(signs[k] * plate / 2, signs[k + 1] * plate / 2, 0);
            Vector3d c = v(signs[k] * mouthX / 2, signs[k + 1] * mouthY / 2, 0);
            Vector3d d = v(signs[i] * mouthX / 2, signs[i + 1] * mouthY / 2, 0);
            s.patch(a, b, c, d, cells);
            s.patch(d, c, v(signs[k] * floorX / 2, signs[k + 1] * floorY / 2, -depth),
                    v(signs[i] * floorX / 2, signs[i + 1] * floorY / 2, -depth), cells);
        }
        s.grid(v(-floorX / 2, -floorY / 2, -depth), v(floorX, 0, 0), v(0, floorY, 0), cells);
        return s.mesh();
    }

    private void patch(Vector3d a, Vector3d b, Vector3d c, Vector3d d, int cells) {
        for (int i = 0; i < cells; i++) {
            for (int j = 0; j < cells; j++) {
                Vector3d[] q = new Vector3d[4];
                for (int n = 0; n < 4; n++) {
                    double u = (i + (n == 1 || n == 2 ? 1.0 : 0)) / cells;
                    double w = (j + (n >= 2 ? 1.0 : 0)) / cells;
                    q[n] = new Vector3d(a).lerp(b, u).lerp(new Vector3d(d).lerp(c, u), w);
                }
                triangle(q[0], q[1], q[2]);
                triangle(q[0], q[2], q[3]);
            }
        }
    }

    /** A hollow of a sphere of radius R around the origin, opening towards +z, rim at z = 0. */
    static TriangleMesh hollow(double radius, int segments) {
        Sheets s = new Sheets();
        int rings = segments / 4;
        for (int i = 0; i < rings; i++) {
            for (int k = 0; k < segments; k++) {
                Vector3d a = onSphere(radius, i, k, rings, segments);
                Vector3d b = onSphere(radius, i, k + 1, rings, segments);
                Vector3d c = onSphere(radius, i + 1, k + 1, rings, segments);
                Vector3d d = onSphere(radius, i + 1, k, rings, segments);
                s.triangle(a, c, b);
                s.triangle(a, d, c);
            }
        }
        return s.mesh();
    }

    private static Vector3d onSphere(double radius, int i, int k, int rings, int segments) {
        double polar = Math.PI / 2 * i / rings;
        double turn = 2 * Math.PI * (k % segments) / segments;
        return v(radius * Math.sin(polar) * Math.cos(turn), radius * Math.sin(polar) * Math.sin(turn),
                -radius * Math.cos(polar));
    }

    static Vector3d v(double x, double y, double z) {
        return new Vector3d(x, y, z);
    }

    void grid(Vector3d from, Vector3d u, Vector3d w, int cells) {
        for (int i = 0; i < cells; i++) {
            for (int j = 0; j < cells; j++) {
                Vector3d a = at(from, u, w, i, j, cells);
                Vector3d c = at(from, u, w, i + 1, j + 1, cells);
                triangle(a, at(from, u, w, i + 1, j, cells), c);
                triangle(a, c, at(from, u, w, i, j + 1, cells));
            }
        }
    }

    private static Vector3d at(Vector3d from, Vector3d u, Vector3d w, int i, int j, int cells) {
        return new Vector3d(from).fma((double) i / cells, u).fma((double) j / cells, w);
    }

    void triangle(Vector3d a, Vector3d b, Vector3d c) {
        int[] t = {vertex(a), vertex(b), vertex(c)};
        if (t[0] != t[1] && t[1] != t[2] && t[2] != t[0]) {
            for (int corner : t) {
                corners.add(corner);
            }
        }
    }

    private int vertex(Vector3d p) {
        List<Long> key = List.of(Math.round(p.x * 1e7), Math.round(p.y * 1e7), Math.round(p.z * 1e7));
        return index.computeIfAbsent(key, k -> {
            points.add(p);
            return points.size() - 1;
        });
    }

    TriangleMesh mesh() {
        double[] xyz = points.stream().flatMapToDouble(p -> java.util.stream.DoubleStream.of(p.x, p.y, p.z)).toArray();
        return new TriangleMesh(xyz, corners.stream().mapToInt(i -> i).toArray());
    }

    static FlangedSurface flanged(TriangleMesh mesh) {
        EdgeTopology topology = EdgeTopology.of(mesh);
        int[] outline = java.util.Arrays.stream(topology.boundaryLoops().get(0)).map(topology::from).toArray();
        return new FlangedSurface(mesh, new byte[mesh.triangleCount()], outline, List.of());
    }
}
