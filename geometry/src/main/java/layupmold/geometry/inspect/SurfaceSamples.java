package layupmold.geometry.inspect;

import java.util.Arrays;
import java.util.function.IntPredicate;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/**
 * Points spread evenly by area over chosen triangles of a mesh, the same points every time.
 *
 * <p>Triangles take turns along their running area (systematic sampling), so that the number of points on a patch
 * differs from its share by less than two whatever its tessellation. As long as there are not more triangles than half
 * the budget, each also gets at least one point, so that small features are never missed. A triangle's only point is
 * its centroid; more are laid out by the R2 low-discrepancy sequence (M. Roberts, 2018), shifted by a hash of the
 * triangle's index so that alike triangles do not all favour the same corner.
 *
 * <p>Sample {@code s} lies at {@code xyz[3s..3s+2]} on triangle {@code triangle[s]} and stands for {@code weight[s]}
 * mm²; the weights add up to the area of the chosen triangles.
 */
final class SurfaceSamples {

    /** 1/g and 1/g² for the real root g of g³ = g + 1. */
    private static final double R2_U = 0.7548776662466927;
    private static final double R2_V = 0.5698402909980532;

    final TriangleMesh mesh;
    final int[] triangle;
    final double[] xyz;
    final double[] weight;
    final double area;

    private SurfaceSamples(TriangleMesh mesh, int[] triangle, double[] xyz, double[] weight, double area) {
        this.mesh = mesh;
        this.triangle = triangle;
        this.xyz = xyz;
        this.weight = weight;
        this.area = area;
    }

    int count() {
        return triangle.length;
    }

    Vector3d at(int s) {
        return new Vector3d(xyz[3 * s], xyz[3 * s + 1], xyz[3 * s + 2]);
    }

    Place place(int s) {
        return Place.at(xyz[3 * s], xyz[3 * s + 1], xyz[3 * s + 2]);
    }

    /** Mean distance between neighbouring samples, mm. */
    double spacing() {
        return count() == 0 ? 0 : Math.sqrt(area / count());
    }

    /**
     * @param mesh any mesh
     * @param areas of its triangles, mm²
     * @param include which triangles to sample
     * @param budget about how many samples to make; at most half as many again
     * @return samples ordered by triangle; O(triangles + samples)
     */
    static SurfaceSamples of(TriangleMesh mesh, double[] areas, IntPredicate include, int budget) {
        double[] own = chosen(areas, include);
        return of(mesh, own, budget, count(own) <= budget / 2);
    }

    /** The same with at least one sample on every chosen triangle, however many they are. */
    static SurfaceSamples covering(TriangleMesh mesh, double[] areas, IntPredicate include, int budget) {
        return of(mesh, chosen(areas, include), budget, true);
    }

    private static SurfaceSamples of(TriangleMesh mesh, double[] areas, int budget, boolean atLeastOne) {
        double total = 0;
        for (double area : areas) {
            total += area;
        }
        return place(mesh, areas, counts(areas, total, budget, atLeastOne), total, atLeastOne);
    }

    private static double[] chosen(double[] areas, IntPredicate include) {
        double[] own = new double[areas.length];
        for (int t = 0; t < own.length; t++) {
            own[t] = include.test(t) ? areas[t] : 0;
        }
        return own;
    }

    private static int count(double[] areas) {
        int count = 0;
        for (double area : areas) {
            count += area > 0 ? 1 : 0;
        }
        return count;
    }

    private static int[] counts(double[] areas, double total, int budget, boolean atLeastOne) {
        int[] counts = new int[areas.length];
        double cell = total / budget;
        double running = cell / 2;
        for (int t = 0; t < areas.length; t++) {
            if (areas[t] > 0) {
                double before = Math.floor(running / cell);
                running += areas[t];
                counts[t] = (int) (Math.floor(running / cell) - before);
                if (atLeastOne) {
                    counts[t] = Math.max(1, counts[t]);
                }
            }
        }
        return counts;
    }

    private static SurfaceSamples place(
            TriangleMesh mesh, double[] areas, int[] counts, double total, boolean ownArea) {
        int size = Arrays.stream(counts).sum();
        int[] triangle = new int[size];
        double[] xyz = new double[3 * size];
        double[] weight = new double[size];
        double each = ownArea ? 0 : total / Math.max(1, size);
        int s = 0;
        for (int t = 0; t < counts.length; t++) {
            for (int k = 0; k < counts[t]; k++) {
                triangle[s] = t;
                weight[s] = ownArea ? areas[t] / counts[t] : each;
                if (counts[t] == 1) {
                    put(mesh, t, 1.0 / 3, 1.0 / 3, xyz, s);
                } else {
                    long hash = mix(t);
                    putFolded(mesh, t, fraction((hash >>> 32) * 0x1p-32 + k * R2_U),
                            fraction((hash & 0xffffffffL) * 0x1p-32 + k * R2_V), xyz, s);
                }
                s++;
            }
        }
        return new SurfaceSamples(mesh, triangle, xyz, weight, total);
    }

    /** Finaliser of SplitMix64 (Steele, Lea, Flood, 2014). */
    private static long mix(long seed) {
        long z = (seed + 1) * 0x9e3779b97f4a7c15L;
        z = (z ^ z >>> 30) * 0xbf58476d1ce4e5b9L;
        z = (z ^ z >>> 27) * 0x94d049bb133111ebL;
        return z ^ z >>> 31;
    }

    private static double fraction(double x) {
        return x - Math.floor(x);
    }

    private static void putFolded(TriangleMesh mesh, int t, double u, double v, double[] out, int s) {
        boolean fold = u + v > 1;
        put(mesh, t, fold ? 1 - u : u, fold ? 1 - v : v, out, s);
    }

    private static void put(TriangleMesh mesh, int t, double u, double v, double[] out, int s) {
        double[] p = mesh.xyz();
        int a = 3 * mesh.triangles()[3 * t];
        int b = 3 * mesh.triangles()[3 * t + 1];
        int c = 3 * mesh.triangles()[3 * t + 2];
        for (int k = 0; k < 3; k++) {
            out[3 * s + k] = p[a + k] + u * (p[b + k] - p[a + k]) + v * (p[c + k] - p[a + k]);
        }
    }
}
