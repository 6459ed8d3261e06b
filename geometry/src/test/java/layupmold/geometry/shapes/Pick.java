package layupmold.geometry.shapes;

import java.util.Arrays;
import java.util.function.Predicate;
import java.util.stream.IntStream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.mesh.TriangleMesh;
import org.joml.Vector3d;

/** Picks triangles of test meshes by their centroids. */
public final class Pick {

    private Pick() {
    }

    /** The triangles whose centroid satisfies {@code wanted}, on the same vertices. */
    public static TriangleMesh triangles(TriangleMesh mesh, Predicate<Vector3d> wanted) {
        int[] kept = IntStream.range(0, mesh.triangleCount()).filter(t -> wanted.test(mesh.centroid(t)))
                .flatMap(t -> Arrays.stream(mesh.triangles(), 3 * t, 3 * t + 3)).toArray();
        return new TriangleMesh(mesh.xyz(), kept);
    }

    /** Regions of a mold: {@code region} where {@code wanted} holds, base at z = 0, side elsewhere. */
    public static byte[] regions(TriangleMesh mesh, MoldRegion region, Predicate<Vector3d> wanted) {
        byte[] regions = new byte[mesh.triangleCount()];
        for (int t = 0; t < regions.length; t++) {
            Vector3d c = mesh.centroid(t);
            MoldRegion r = wanted.test(c) ? region : c.z < 1e-6 ? MoldRegion.BASE : MoldRegion.SIDE;
            regions[t] = (byte) r.ordinal();
        }
        return regions;
    }
}
