package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.IntArrayList;
import java.util.Arrays;
import java.util.stream.IntStream;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.simplify.EdgeFlips;

/**
 * Brings a rebuilt surface that is free of crossing closer to the offset: refines it where its triangles cut corners
 * and settles its vertices, then takes back what made triangles cross, until nothing does.
 */
public final class SurfaceFinish {

    private static final int ROUNDS = 12;
    /** Rounds that ban single vertices; later ones ban neighbourhoods. */
    private static final int FINE_ROUNDS = 6;
    private static final double FINE_MM = 0.01;
    private static final double COARSE_MM = 0.25;
    private static final int PAIR_LIMIT = 100_000;

    /**
     * @param mesh the finished surface
     * @param source for each triangle the one it was a part of
     * @param crossing triangles that still cross, two by two
     */
    public record Result(TriangleMesh mesh, int[] source, int[] crossing) {
    }

    private SurfaceFinish() {
    }

    /**
     * @param rebuilt the surface, on lattice coordinates
     * @param labels labels of its triangles; edges between them are not flipped
     * @param fixed vertices that stay
     * @param toleranceMm triangles are split until they leave the offset by no more than this
     */
    public static Result finish(TriangleMesh rebuilt, int[] labels, boolean[] fixed, OffsetField field,
            double toleranceMm, CoordinateLattice lattice) {
        boolean[] loose = loose(rebuilt, fixed);
        boolean[] active = active(rebuilt, loose);
        int[] looked = IntStream.range(0, active.length).filter(t -> active[t]).toArray();
        TargetProjection.Settled settled = TargetProjection.settle(rebuilt.xyz(), loose, field);
        BannedPlaces banned = new BannedPlaces(FINE_MM);
        // Only asked for once a round leaves crossings; a surface that has none needs no comparison.
        int unavoidable = -1;
        for (int round = 0; round < ROUNDS; round++) {
            if (round == FINE_ROUNDS) {
                banned = new BannedPlaces(COARSE_MM);
            }
            PatchMesh patch = new PatchMesh(places(rebuilt, settled, banned));
            patch.replaceTriangles(IntArrayList.from(rebuilt.triangles()),
                    IntArrayList.from(IntStream.range(0, rebuilt.triangleCount()).toArray()));
            SurfacePoints points = new SurfacePoints(field, patch, settled);
            TargetRefinement.refine(patch, IntArrayList.from(looked), points, banned, toleranceMm);
            TriangleMesh finished = flip(
                    new TriangleMesh(lattice.round(patch.coordinates()), patch.triangles.toArray()),
                    patch.sources.toArray(), active, labels, field, banned, toleranceMm);
            int[] pairs = crossings(finished);
            if (pairs.length > 0 && unavoidable < 0) {
                unavoidable = crossings(rebuilt).length;
            }
            if (pairs.length <= Math.max(0, unavoidable)) {
                return new Result(finished, patch.sources.toArray(), pairs);
            }
            for (int t : pairs) {
                banned.add(finished, t);
            }
        }
        return new Result(rebuilt, IntStream.range(0, rebuilt.triangleCount()).toArray(), crossings(rebuilt));
    }

    private static TriangleMesh flip(TriangleMesh mesh, int[] source, boolean[] active, int[] labels,
            OffsetField field, BannedPlaces banned, double toleranceMm) {
        double[] xyz = mesh.xyz();
        int[] labelOf = Arrays.stream(source).map(t -> labels[t]).toArray();
        return EdgeFlips.flip(mesh, labelOf, t -> active[source[t]],
                v -> !banned.contains(xyz[3 * v], xyz[3 * v + 1], xyz[3 * v + 2]),
                () -> {
                    OffsetField.Sample sample = new OffsetField.Sample();
                    return (x, y, z) -> {
                        field.at(x, y, z, sample);
                        return sample.beyondBoundary ? 0 : sample.miss();
                    };
                }, toleranceMm);
    }

    /** The vertices where they settle, but for those that would settle where none may lie. */
    private static double[] places(TriangleMesh rebuilt, TargetProjection.Settled settled, BannedPlaces banned) {
        double[] xyz = settled.xyz().clone();
        for (int v = 0; v < xyz.length; v += 3) {
            if (xyz[v] != rebuilt.xyz()[v] && banned.contains(xyz[v], xyz[v + 1], xyz[v + 2])) {
                System.arraycopy(rebuilt.xyz(), v, xyz, v, 3);
            }
        }
        return xyz;
    }

    private static int[] crossings(TriangleMesh mesh) {
        return SelfIntersections.find(mesh, TriangleBvh.of(mesh), PAIR_LIMIT);
    }

    private static boolean[] loose(TriangleMesh mesh, boolean[] fixed) {
        boolean[] border = EdgeTopology.of(mesh).borderVertices(mesh.vertexCount());
        boolean[] loose = new boolean[fixed.length];
        for (int v = 0; v < loose.length; v++) {
            loose[v] = !fixed[v] && !border[v];
        }
        return loose;
    }

    /** Triangles with a vertex that may move. */
    private static boolean[] active(TriangleMesh mesh, boolean[] loose) {
        boolean[] active = new boolean[mesh.triangleCount()];
        for (int i = 0; i < mesh.triangles().length; i++) {
            active[i / 3] |= loose[mesh.triangles()[i]];
        }
        return active;
    }
}
