package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.IntArrayList;
import java.util.Arrays;
import layupmold.geometry.bvh.SelfIntersections;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.simplify.WrinkleRepair;

/**
 * A surface after its vertices moved to the offset and its wrinkles were taken out.
 *
 * @param mesh on lattice coordinates; some vertices may be unused
 * @param source for each triangle the given one whose place it takes
 * @param suspect for each vertex, whether it could not reach all planes of its triangles
 * @param turned for each triangle, whether moving it turned it over
 * @param crossing triangles that cross, two by two
 * @param crossed triangles of the given surface that crossed before they moved, two by two, of those that cross now
 */
record MovedSurface(TriangleMesh mesh, int[] source, boolean[] suspect, boolean[] turned, int[] crossing, int[] crossed) {

    /** What flipped and collapsed edges may miss. */
    private static final double WRINKLE_MM = 0.015;
    private static final int PAIR_LIMIT = 1 << 20;

    /**
     * @param places the surface's vertices at the offset, as plane fits give them; changed
     * @param regions region of each triangle; edges between them are not flipped
     */
    static MovedSurface of(TriangleMesh surface, byte[] regions, double[] places, OffsetField field,
            CoordinateLattice lattice) {
        TriangleMesh moved = new TriangleMesh(lattice.round(places).clone(), surface.triangles());
        int[] crossing = SelfIntersections.find(moved, field.hierarchyOf(moved), PAIR_LIMIT);
        boolean[] suspect = TargetProjection.project(places, folded(surface, moved, crossing), field);
        WrinkleRepair.Result smooth = WrinkleRepair.repair(surface.xyz(),
                new TriangleMesh(lattice.round(places), surface.triangles()), regions, field.targetAnywhere(), WRINKLE_MM);
        TriangleMesh mesh = smooth.mesh();
        TriangleMesh before = new TriangleMesh(surface.xyz(), mesh.triangles());
        boolean[] turned = new boolean[mesh.triangleCount()];
        for (int t = 0; t < turned.length; t++) {
            turned[t] = mesh.areaNormal(t).dot(before.areaNormal(t)) <= 0;
            boolean changed = !Arrays.equals(mesh.triangles(), 3 * t, 3 * t + 3,
                    surface.triangles(), 3 * smooth.source()[t], 3 * smooth.source()[t] + 3);
            for (int k = 0; k < 3 && changed; k++) {
                suspect[mesh.triangles()[3 * t + k]] = true;
            }
        }
        boolean same = Arrays.equals(mesh.xyz(), moved.xyz()) && Arrays.equals(mesh.triangles(), moved.triangles());
        return new MovedSurface(mesh, smooth.source(), suspect, turned,
                same ? crossing : SelfIntersections.find(mesh, PAIR_LIMIT), crossing(surface, crossing));
    }

    /** Those of the pairs that cross in another mesh of the same triangles. */
    private static int[] crossing(TriangleMesh mesh, int[] pairs) {
        int[] c = mesh.triangles();
        IntArrayList crossing = new IntArrayList();
        for (int i = 0; i < pairs.length; i += 2) {
            int t = 3 * pairs[i];
            int u = 3 * pairs[i + 1];
            if (SelfIntersections.meet(mesh.xyz(), c[t], c[t + 1], c[t + 2], c[u], c[u + 1], c[u + 2])) {
                crossing.add(pairs[i], pairs[i + 1]);
            }
        }
        return crossing.toArray();
    }

    /** Vertices of triangles that turned over or cross others: where they lie shows where the sheets meet. */
    private static boolean[] folded(TriangleMesh surface, TriangleMesh moved, int[] crossing) {
        boolean[] folded = new boolean[surface.vertexCount()];
        for (int t = 0; t < surface.triangleCount(); t++) {
            if (moved.areaNormal(t).dot(surface.areaNormal(t)) <= 0) {
                mark(moved, t, folded);
            }
        }
        for (int t : crossing) {
            mark(moved, t, folded);
        }
        return folded;
    }

    private static void mark(TriangleMesh mesh, int t, boolean[] folded) {
        for (int k = 0; k < 3; k++) {
            folded[mesh.triangles()[3 * t + k]] = true;
        }
    }
}
