package layupmold.geometry.testparts;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * Where a function is 0, by marching tetrahedra (Doi and Koide, "An efficient method of triangulating equi-valued
 * surfaces by using tetrahedral cells", 1991): closed and manifold, with the slivers and stairs that sculptors' meshes
 * have.
 */
public final class IsoSurface {

    /** Six tetrahedra of a cube around its diagonal from corner 0 to corner 7; corner bits are x, y, z. */
    private static final int[][] TETRAHEDRA = {
        {0, 1, 3, 7}, {0, 3, 2, 7}, {0, 2, 6, 7}, {0, 6, 4, 7}, {0, 4, 5, 7}, {0, 5, 1, 7}};
    /** Values nearer to 0 are moved off it, so that no vertex falls onto a corner of the grid. */
    private static final double LEAST = 1e-6;

    private final int[] count;
    private final Vector3d low;
    private final double step;
    private final double[] value;
    private final Map<Long, Integer> onEdge = new HashMap<>();
    private final List<Vector3d> points = new ArrayList<>();
    private final List<int[]> triangles = new ArrayList<>();

    private IsoSurface(ToDoubleFunction<Vector3d> inside, Vector3d low, Vector3d high, double step) {
        this.low = low;
        this.step = step;
        this.count = new int[] {cells(high.x - low.x), cells(high.y - low.y), cells(high.z - low.z)};
        this.value = new double[(count[0] + 1) * (count[1] + 1) * (count[2] + 1)];
        for (int g = 0; g < value.length; g++) {
            double v = inside.applyAsDouble(point(g));
            value[g] = Math.abs(v) < LEAST ? LEAST : v;
        }
    }

    /**
     * @param inside negative inside the body
     * @param step size of the grid's cubes, mm
     */
    public static TriangleMesh of(ToDoubleFunction<Vector3d> inside, Vector3d low, Vector3d high, double step) {
        return new IsoSurface(inside, low, high, step).march();
    }

    private int cells(double length) {
        return (int) Math.ceil(length / step);
    }

    private Vector3d point(int g) {
        int nx = count[0] + 1;
        int ny = count[1] + 1;
        return new Vector3d(g % nx, g / nx % ny, g / nx / ny).mul(step).add(low);
    }

    private TriangleMesh march() {
        int nx = count[0] + 1;
        int ny = count[1] + 1;
        int[] tetrahedron = new int[4];
        for (int z = 0; z < count[2]; z++) {
            for (int y = 0; y < count[1]; y++) {
                for (int x = 0; x < count[0]; x++) {
                    for (int[] corners : TETRAHEDRA) {
                        for (int i = 0; i < 4; i++) {
                            int c = corners[i];
                            tetrahedron[i] = x + (c & 1) + nx * (y + (c >> 1 & 1) + ny * (z + (c >> 2)));
                        }
                        cut(tetrahedron);
                    }
                }
            }
        }
        double[] xyz = new double[3 * points.size()];
        for (int v = 0; v < points.size(); v++) {
            xyz[3 * v] = points.get(v).x;
            xyz[3 * v + 1] = points.get(v).y;
            xyz[3 * v + 2] = points.get(v).z;
        }
        return new TriangleMesh(xyz, triangles.stream().flatMapToInt(java.util.Arrays::stream).toArray());
    }

    private void cut(int[] tetrahedron) {
        List<Integer> in = new ArrayList<>();
        List<Integer> out = new ArrayList<>();
        for (int g : tetrahedron) {
            (value[g] < 0 ? in : out).add(g);
        }
        if (in.size() == 1) {
            add(at(in.get(0), out.get(0)), at(in.get(0), out.get(1)), at(in.get(0), out.get(2)), in.get(0), out.get(0));
        } else if (in.size() == 3) {
            add(at(in.get(0), out.get(0)), at(in.get(1), out.get(0)), at(in.get(2), out.get(0)), in.get(0), out.get(0));
        } else if (in.size() == 2) {
            int a = at(in.get(0), out.get(0));
            int b = at(in.get(0), out.get(1));
            int c = at(in.get(1), out.get(1));
            int d = at(in.get(1), out.get(0));
            add(a, b, c, in.get(0), out.get(0));
            add(a, c, d, in.get(1), out.get(0));
        }
    }

    /** The vertex between two corners of the grid. */
    private int at(int p, int q) {
        long key = (long) Math.min(p, q) << 32 | Math.max(p, q);
        return onEdge.computeIfAbsent(key, k -> {
            int a = Math.min(p, q);
            int b = Math.max(p, q);
            points.add(point(a).lerp(point(b), value[a] / (value[a] - value[b])));
            return points.size() - 1;
        });
    }

    /** Adds a triangle that turns its back to corner {@code in} of the grid. */
    private void add(int a, int b, int c, int in, int out) {
        Vector3d normal = points.get(b).sub(points.get(a), new Vector3d())
                .cross(points.get(c).sub(points.get(a), new Vector3d()));
        boolean outward = normal.dot(points.get(a).sub(point(in), new Vector3d())) > 0;
        triangles.add(outward ? new int[] {a, b, c} : new int[] {a, c, b});
    }
}
