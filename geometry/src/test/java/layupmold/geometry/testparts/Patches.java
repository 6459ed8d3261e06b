package layupmold.geometry.testparts;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.shape.ShellRegion;
import org.joml.Vector3d;

/** Collects triangles by coordinates and welds vertices that agree within a nanometre or so. */
final class Patches {
    private final Map<List<Long>, Integer> index = new HashMap<>();
    private final List<double[]> points = new ArrayList<>();
    private final List<int[]> triangles = new ArrayList<>();
    private final List<ShellRegion> regions = new ArrayList<>();

    static int steps(double length, double spacing) {
        return Math.max(1, (int) Math.round(length / spacing));
    }

    private int vertex(double x, double y, double z) {
        List<Long> key = List.of(Math.round(x * 1e6), Math.round(y * 1e6), Math.round(z * 1e6));
        return index.computeIfAbsent(key, k -> {
            points.add(new double[] {x, y, z});
            return points.size() - 1;
        });
    }

    private void triangle(int a, int b, int c, ShellRegion region) {
        if (a != b && b != c && c != a) {
            triangles.add(new int[] {a, b, c});
            regions.add(region);
        }
    }

    void quad(double ax, double ay, double az, double bx, double by, double bz,
            double cx, double cy, double cz, double dx, double dy, double dz, ShellRegion region) {
        int a = vertex(ax, ay, az);
        int b = vertex(bx, by, bz);
        int c = vertex(cx, cy, cz);
        int d = vertex(dx, dy, dz);
        triangle(a, b, c, region);
        triangle(a, c, d, region);
    }

    /** From an edge on the outer wall (a to b as the rim sees it, backwards) down to c and d on the inner. */
    void rim(double ax, double ay, double az, double bx, double by, double bz,
            double cx, double cy, double cz, double dx, double dy, double dz) {
        double mx = (ax + dx) / 2;
        double my = (ay + dy) / 2;
        double mz = (az + dz) / 2;
        double nx = (bx + cx) / 2;
        double ny = (by + cy) / 2;
        double nz = (bz + cz) / 2;
        quad(bx, by, bz, ax, ay, az, mx, my, mz, nx, ny, nz, ShellRegion.RIM_OUTER_HALF);
        quad(nx, ny, nz, mx, my, mz, dx, dy, dz, cx, cy, cz, ShellRegion.RIM_INNER_HALF);
    }

    void grid(double x, double y, double z, double ux, double uy, double uz, double vx, double vy, double vz,
            double spacing, ShellRegion region) {
        int columns = steps(Vector3d.length(ux, uy, uz), spacing);
        int rows = steps(Vector3d.length(vx, vy, vz), spacing);
        int[] at = new int[(columns + 1) * (rows + 1)];
        for (int j = 0; j <= rows; j++) {
            for (int i = 0; i <= columns; i++) {
                double u = (double) i / columns;
                double v = (double) j / rows;
                at[j * (columns + 1) + i] = vertex(x + u * ux + v * vx, y + u * uy + v * vy, z + u * uz + v * vz);
            }
        }
        for (int j = 0; j < rows; j++) {
            for (int i = 0; i < columns; i++) {
                int p = j * (columns + 1) + i;
                int q = p + columns + 1;
                facing(at[p], at[p + 1], at[q + 1], region);
                facing(at[p], at[q + 1], at[q], region);
            }
        }
    }

    private void facing(int a, int b, int c, ShellRegion region) {
        if (region == ShellRegion.INNER) {
            triangle(a, c, b, region);
        } else {
            triangle(a, b, c, region);
        }
    }

    /** A level strip between an outer and an inner line of other divisions, facing down. */
    void zip(double[] outer, double[] inner, int p, int q, int outerCount, int innerCount, double z) {
        int i = 0;
        int j = 0;
        while (i < outerCount || j < innerCount) {
            int o = on(outer, p, q, i, outerCount, z);
            int n = on(inner, p, q, j, innerCount, z);
            boolean stepOuter = j == innerCount
                    || i < outerCount && (i + 0.5) * innerCount <= (j + 0.5) * outerCount;
            if (stepOuter) {
                triangle(on(outer, p, q, ++i, outerCount, z), o, n, ShellRegion.RIM_OUTER_HALF);
            } else {
                triangle(on(inner, p, q, ++j, innerCount, z), o, n, ShellRegion.RIM_INNER_HALF);
            }
        }
    }

    private int on(double[] line, int p, int q, int step, int count, double z) {
        double s = (double) step / count;
        return vertex(line[p] + s * (line[q] - line[p]), line[p + 1] + s * (line[q + 1] - line[p + 1]), z);
    }

    void revolvedQuad(double[] section, int i, int j, double a0, double a1, ShellRegion region) {
        int p = turned(section, i, a0);
        int q = turned(section, j, a0);
        int r = turned(section, j, a1);
        int s = turned(section, i, a1);
        triangle(p, q, r, region);
        triangle(p, r, s, region);
    }

    private int turned(double[] section, int i, double angle) {
        double radius = section[2 * i];
        return vertex(radius * Math.cos(angle), radius * Math.sin(angle), section[2 * i + 1]);
    }

    TestPart part(String name, double thickness, double[] loopLengths) {
        double[] xyz = new double[3 * points.size()];
        for (int v = 0; v < points.size(); v++) {
            System.arraycopy(points.get(v), 0, xyz, 3 * v, 3);
        }
        int[] corners = new int[3 * triangles.size()];
        byte[] truth = new byte[triangles.size()];
        byte[] loops = new byte[triangles.size()];
        Arrays.fill(loops, (byte) -1);
        for (int t = 0; t < truth.length; t++) {
            System.arraycopy(triangles.get(t), 0, corners, 3 * t, 3);
            truth[t] = (byte) regions.get(t).ordinal();
            if (regions.get(t) != ShellRegion.OUTER && regions.get(t) != ShellRegion.INNER) {
                loops[t] = 0;
            }
        }
        return new TestPart(name, new TriangleMesh(xyz, corners), truth, loops, new Vector3d(0, 0, -1), thickness,
                thickness, 0, loopLengths);
    }
}
