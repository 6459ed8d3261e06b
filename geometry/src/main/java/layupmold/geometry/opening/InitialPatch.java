package layupmold.geometry.opening;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.delaunay.ConstrainedDelaunay;
import layupmold.geometry.delaunay.PlanarGraphException;
import layupmold.geometry.mesh.TriangleMesh;

/** First triangulations of a loop from its corners alone, best first. */
final class InitialPatch {

    /** Loops up to this length get the cubic search for least area over all corners: about 10 ms. */
    private static final int SHORT_LOOP = 120;
    private static final int KEPT_OF_LONG_LOOP = 90;
    /** A loop that loses more than this share of its length in projection is too steep to be triangulated there. */
    private static final double LEAST_PROJECTED_SHARE = 0.6;

    private InitialPatch() {
    }

    /** In the best plane: the constrained Delaunay triangulation, or null if the projected loop is not simple. */
    static int[] projected(OpeningLoop loop) {
        double[] xy = loop.projected();
        int n = loop.cornerCount();
        int[] ring = new int[n];
        double area = 0;
        for (int i = 0; i < n; i++) {
            ring[i] = i;
            int j = (i + 1) % n;
            area += xy[2 * i] * xy[2 * j + 1] - xy[2 * j] * xy[2 * i + 1];
        }
        if (!(area > 0)) {
            return null;
        }
        try {
            return ConstrainedDelaunay.polygon(xy, new int[][] {ring});
        } catch (PlanarGraphException notSimple) {
            return null;
        }
    }

    /** Triangulations worth trying for a loop that is not flat; may be empty. */
    static List<int[]> candidates(OpeningLoop loop) {
        List<int[]> patches = new ArrayList<>();
        int[] flat = projectedShare(loop) >= LEAST_PROJECTED_SHARE ? projected(loop) : null;
        if (loop.cornerCount() > SHORT_LOOP && flat != null) {
            patches.add(flat);
        }
        int[] least = loop.cornerCount() <= SHORT_LOOP
                ? MinimumAreaPatch.triangulate(loop.xyz, loop::isFaceEdge)
                : EarReduction.patch(loop, KEPT_OF_LONG_LOOP);
        if (least != null) {
            patches.add(least);
        }
        if (loop.cornerCount() <= SHORT_LOOP && flat != null) {
            patches.add(flat);
        }
        return patches;
    }

    /** The least area without triangles that meet the face; null if there is none, or the loop is too long to look. */
    static int[] clear(TriangleMesh face, OpeningLoop loop) {
        return loop.cornerCount() > SHORT_LOOP ? null
                : MinimumAreaPatch.triangulate(loop.xyz, loop::isFaceEdge, new FaceBeside(face, loop)::isMet);
    }

    private static double projectedShare(OpeningLoop loop) {
        double[] xy = loop.projected();
        int n = loop.cornerCount();
        double sum = 0;
        for (int i = 0; i < n; i++) {
            int j = (i + 1) % n;
            sum += Math.hypot(xy[2 * j] - xy[2 * i], xy[2 * j + 1] - xy[2 * i + 1]);
        }
        return sum / loop.perimeter();
    }
}
