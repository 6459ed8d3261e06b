package layupmold.geometry.flange;

import com.carrotsearch.hppc.IntArrayList;
import java.util.List;
import layupmold.geometry.delaunay.ConstrainedDelaunay;
import layupmold.geometry.delaunay.PlanarGraphException;
import layupmold.geometry.parallel.Parallel;
import org.joml.Vector2d;

/**
 * What lies, seen along the pull, between two sets of rings around the same plan: constrained Delaunay triangles, with
 * an edge from tip to tip at its sharp corners. Without those the outer tip's own neighbours would be joined, nearer to
 * each other than to the inner ring, which cuts the corner off by a level facet.
 */
final class RingStrip {

    /** What rings are rounded to may have moved a tip by this. */
    private static final double TIP_MM = 0.02;

    private RingStrip() {
    }

    /**
     * O(n log n) for n corners, and their number times that of tips.
     *
     * @param xy corners, x and y
     * @param rings corners of each ring
     * @param innerCount how many of the rings, the first, are inner ones
     * @param innerTips where these may have tips
     * @param outerTips the same of the others, in the same order, or none
     * @return three corners a triangle
     * @throws PlanarGraphException if rings touch each other
     */
    static int[] triangles(
            double[] xy, int[][] rings, int innerCount, List<Vector2d> innerTips, List<Vector2d> outerTips) {
        IntArrayList links = new IntArrayList();
        for (int i = 0; i < Math.min(innerTips.size(), outerTips.size()); i++) {
            Parallel.stopIfInterrupted();
            int from = cornerAt(innerTips.get(i), xy, rings, 0, innerCount);
            int to = cornerAt(outerTips.get(i), xy, rings, innerCount, rings.length);
            if (from >= 0 && to >= 0) {
                links.add(from, to);
            }
        }
        if (!links.isEmpty()) {
            try {
                return ConstrainedDelaunay.polygon(xy, rings, new int[0], links.toArray());
            } catch (PlanarGraphException e) {
                // A tip's way runs into another part of a ring: the rings alone say what is wrong, if anything.
            }
        }
        return ConstrainedDelaunay.polygon(xy, rings);
    }

    private static int cornerAt(Vector2d tip, double[] xy, int[][] rings, int firstRing, int endRing) {
        int nearest = -1;
        double least = TIP_MM;
        for (int r = firstRing; r < endRing; r++) {
            for (int i : rings[r]) {
                double distance = tip.distance(xy[2 * i], xy[2 * i + 1]);
                if (distance < least) {
                    least = distance;
                    nearest = i;
                }
            }
        }
        return nearest;
    }
}
