package layupmold.geometry.inspect;

import java.util.concurrent.CompletableFuture;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.NormalBoxes;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/**
 * A finished solid with what every measurement needs of it, built once.
 *
 * @param mesh closed solid, triangles facing outward, mm; z points along the pull, the base lies on z = 0
 * @param regions {@link MoldRegion} ordinal of each triangle
 * @param bvh hierarchy over {@code mesh}
 * @param topology neighbours in {@code mesh}
 * @param normals unit normals, three a triangle; zero where a triangle has no area
 * @param turns boxes around the normals below each node of {@code bvh}
 * @param areas of the triangles, mm²
 * @param reliable false for triangles so thin that their normals are noise
 */
public record MeasuredSolid(TriangleMesh mesh, byte[] regions, TriangleBvh bvh, EdgeTopology topology,
        double[] normals, NormalBoxes turns, double[] areas, boolean[] reliable) {

    /** Triangles thinner than this have no reliable normal in 32-bit coordinates of some 100 mm. */
    private static final double SLIVER_MM = 1e-3;
    private static final int GRAIN = 1 << 14;

    /** Builds the hierarchy and the topology side by side; O(n log n). */
    public static MeasuredSolid of(TriangleMesh mesh, byte[] regions) {
        CompletableFuture<EdgeTopology> topology = CompletableFuture.supplyAsync(() -> EdgeTopology.of(mesh));
        TriangleBvh bvh = TriangleBvh.of(mesh);
        return of(mesh, regions, bvh, topology.join());
    }

    /** Takes a hierarchy and a topology that are there already; O(n). */
    public static MeasuredSolid of(TriangleMesh mesh, byte[] regions, TriangleBvh bvh, EdgeTopology topology) {
        int n = mesh.triangleCount();
        if (regions.length != n) {
            throw new IllegalArgumentException("one region a triangle is needed");
        }
        double[] normals = new double[3 * n];
        double[] areas = new double[n];
        boolean[] reliable = new boolean[n];
        Parallel.forRanges(n, GRAIN, (chunk, from, to) -> {
            for (int t = from; t < to; t++) {
                measure(mesh, t, normals, areas, reliable);
            }
        });
        return new MeasuredSolid(
                mesh, regions, bvh, topology, normals, NormalBoxes.of(bvh, normals), areas, reliable);
    }

    private static void measure(
            TriangleMesh mesh, int triangle, double[] normals, double[] areas, boolean[] reliable) {
        double[] p = mesh.xyz();
        int[] corners = mesh.triangles();
        int at = 3 * triangle;
        int a = 3 * corners[at];
        int b = 3 * corners[at + 1];
        int c = 3 * corners[at + 2];
        double ux = p[b] - p[a];
        double uy = p[b + 1] - p[a + 1];
        double uz = p[b + 2] - p[a + 2];
        double vx = p[c] - p[a];
        double vy = p[c + 1] - p[a + 1];
        double vz = p[c + 2] - p[a + 2];
        double x = uy * vz - uz * vy;
        double y = uz * vx - ux * vz;
        double z = ux * vy - uy * vx;
        double length = Math.sqrt(x * x + y * y + z * z);
        if (length > 0) {
            normals[at] = x / length;
            normals[at + 1] = y / length;
            normals[at + 2] = z / length;
        }
        areas[triangle] = length / 2;
        double wx = vx - ux;
        double wy = vy - uy;
        double wz = vz - uz;
        double longest = Math.max(ux * ux + uy * uy + uz * uz,
                Math.max(vx * vx + vy * vy + vz * vz, wx * wx + wy * wy + wz * wz));
        reliable[triangle] = length > SLIVER_MM * Math.sqrt(longest);
    }

    boolean isIn(int triangle, MoldRegion region) {
        return regions[triangle] == region.ordinal();
    }

    /** Whether cloth may touch the triangle: tool, caps, wall, edge and border. */
    boolean carriesCloth(int triangle) {
        return regions[triangle] <= MoldRegion.BORDER.ordinal();
    }

    /** False for triangles whose least height is below {@value #SLIVER_MM} mm: their normals are noise. */
    boolean hasReliableNormal(int triangle) {
        return reliable[triangle];
    }
}
