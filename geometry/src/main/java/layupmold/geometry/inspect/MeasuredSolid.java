package layupmold.geometry.inspect;

import java.util.concurrent.CompletableFuture;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;

/**
 * A finished solid with what every measurement needs of it, built once.
 *
 * @param mesh closed solid, triangles facing outward, mm; z points along the pull, the base lies on z = 0
 * @param regions {@link MoldRegion} ordinal of each triangle
 * @param bvh hierarchy over {@code mesh}
 * @param topology neighbours in {@code mesh}
 * @param normals unit normals, three a triangle; zero where a triangle has no area
 */
public record MeasuredSolid(
        TriangleMesh mesh, byte[] regions, TriangleBvh bvh, EdgeTopology topology, double[] normals) {

    /** Triangles thinner than this have no reliable normal in 32-bit coordinates of some 100 mm. */
    private static final double SLIVER_MM = 1e-3;

    /** Builds the hierarchy and the topology side by side; O(n log n). */
    public static MeasuredSolid of(TriangleMesh mesh, byte[] regions) {
        CompletableFuture<EdgeTopology> topology = CompletableFuture.supplyAsync(() -> EdgeTopology.of(mesh));
        TriangleBvh bvh = TriangleBvh.of(mesh);
        return of(mesh, regions, bvh, topology.join());
    }

    /** Takes a hierarchy and a topology that are there already; O(n). */
    public static MeasuredSolid of(TriangleMesh mesh, byte[] regions, TriangleBvh bvh, EdgeTopology topology) {
        if (regions.length != mesh.triangleCount()) {
            throw new IllegalArgumentException("one region a triangle is needed");
        }
        return new MeasuredSolid(mesh, regions, bvh, topology, mesh.unitNormals());
    }

    boolean isIn(int triangle, MoldRegion region) {
        return regions[triangle] == region.ordinal();
    }

    /** Whether release layer or cloth may touch the triangle: tool, caps, wall, edge and border. */
    boolean carriesCloth(int triangle) {
        return regions[triangle] <= MoldRegion.BORDER.ordinal();
    }

    /** False for triangles whose least height is below {@value #SLIVER_MM} mm: their normals are noise. */
    boolean hasReliableNormal(int triangle) {
        double longest = 0;
        double[] xyz = mesh.xyz();
        int[] corners = mesh.triangles();
        for (int i = 0; i < 3; i++) {
            int a = 3 * corners[3 * triangle + i];
            int b = 3 * corners[3 * triangle + (i + 1) % 3];
            double x = xyz[a] - xyz[b];
            double y = xyz[a + 1] - xyz[b + 1];
            double z = xyz[a + 2] - xyz[b + 2];
            longest = Math.max(longest, x * x + y * y + z * z);
        }
        return mesh.areaNormal(triangle).length() > SLIVER_MM * Math.sqrt(longest);
    }
}
