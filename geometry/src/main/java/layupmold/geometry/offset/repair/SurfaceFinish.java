package layupmold.geometry.offset.repair;

import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.simplify.TargetFit;

/**
 * Brings a rebuilt surface that is free of crossing closer to the offset: settles its vertices, but for those that would
 * make triangles cross, and refines it where its triangles cut corners ({@link TargetFit}).
 */
public final class SurfaceFinish {

    private static final int ROUNDS = 8;
    private static final int PAIR_LIMIT = 100_000;
    private static final int[] NONE = {};

    /**
     * @param fit the finished surface
     * @param crossing its triangles that cross, two by two, which cannot be helped
     */
    public record Result(TargetFit.Result fit, int[] crossing) {
    }

    private record Settled(TriangleMesh mesh, boolean crosses) {
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
        Settled settled = settle(rebuilt, loose, field, lattice);
        TargetFit.Result fit = TargetFit.fit(settled.mesh, labels, active(rebuilt, loose), loose, field::target,
                Exactness::weight, toleranceMm, lattice);
        return new Result(fit, settled.crosses ? SelfIntersections.find(fit.mesh(), PAIR_LIMIT) : NONE);
    }

    /** The surface with its loose vertices at the offset, as far as that makes nothing cross. */
    private static Settled settle(
            TriangleMesh rebuilt, boolean[] loose, OffsetField field, CoordinateLattice lattice) {
        double[] places = lattice.round(TargetProjection.settle(rebuilt.xyz(), loose, field));
        TriangleMesh settled = new TriangleMesh(places, rebuilt.triangles());
        // Only asked for once a round leaves crossings; a surface that has none needs no comparison.
        int[] unavoidable = null;
        for (int round = 0; round < ROUNDS; round++) {
            int[] pairs = SelfIntersections.find(settled, PAIR_LIMIT);
            if (pairs.length > 0 && unavoidable == null) {
                unavoidable = SelfIntersections.find(rebuilt, PAIR_LIMIT);
            }
            if (pairs.length == 0 || pairs.length <= unavoidable.length) {
                return new Settled(settled, pairs.length > 0);
            }
            boolean[] back = new boolean[loose.length];
            for (int t : pairs) {
                mark(settled, t, back);
            }
            if (!takeBack(places, rebuilt.xyz(), back)) {
                widen(settled, back);
                takeBack(places, rebuilt.xyz(), back);
            }
        }
        return new Settled(rebuilt, unavoidable.length > 0);
    }

    private static boolean takeBack(double[] places, double[] xyz, boolean[] back) {
        boolean any = false;
        for (int i = 0; i < xyz.length; i++) {
            any |= back[i / 3] && places[i] != xyz[i];
            places[i] = back[i / 3] ? xyz[i] : places[i];
        }
        return any;
    }

    private static void widen(TriangleMesh mesh, boolean[] back) {
        boolean[] before = back.clone();
        int[] corners = mesh.triangles();
        for (int t = 0; t < mesh.triangleCount(); t++) {
            if (before[corners[3 * t]] || before[corners[3 * t + 1]] || before[corners[3 * t + 2]]) {
                mark(mesh, t, back);
            }
        }
    }

    private static void mark(TriangleMesh mesh, int t, boolean[] vertices) {
        for (int k = 0; k < 3; k++) {
            vertices[mesh.triangles()[3 * t + k]] = true;
        }
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
