package layupmold.geometry.opening;

import layupmold.geometry.mesh.PolygonSplits;

/**
 * The triangulation of a closed space polygon that has the least area among all that use only its corners, by dynamic
 * programming (Barequet, Sharir: "Filling gaps in the boundary of a polyhedron", 1995). O(n³) time, O(n²) space.
 */
final class MinimumAreaPatch {

    /** Corner pairs that must not be joined. */
    @FunctionalInterface
    interface Barred {
        boolean test(int i, int j);
    }

    /** Corner triples that must not become a triangle. */
    @FunctionalInterface
    interface BarredTriangle {
        boolean test(int i, int j, int k);
    }

    private MinimumAreaPatch() {
    }

    /**
     * @param xyz corner positions
     * @return corner indices, three a triangle, following the polygon's direction; null if barred pairs leave none
     */
    static int[] triangulate(double[] xyz, Barred barred) {
        return triangulate(xyz, barred, (i, j, k) -> false);
    }

    /**
     * The same without some triangles.
     *
     * @param barredTriangle asked for those only that would make less area than others
     */
    static int[] triangulate(double[] xyz, Barred barred, BarredTriangle barredTriangle) {
        int n = xyz.length / 3;
        double[] least = new double[n * n];
        int[] split = new int[n * n];
        for (int span = 2; span < n; span++) {
            for (int i = 0; i + span < n; i++) {
                int k = i + span;
                boolean closing = i == 0 && k == n - 1;
                double best = Double.POSITIVE_INFINITY;
                int bestJ = -1;
                if (closing || !barred.test(i, k)) {
                    for (int j = i + 1; j < k; j++) {
                        double below = least[i * n + j] + least[j * n + k];
                        if (below < best) {
                            double area = below + Triangles.area(xyz, i, j, k);
                            if (area < best && !barredTriangle.test(i, j, k)) {
                                best = area;
                                bestJ = j;
                            }
                        }
                    }
                }
                least[i * n + k] = best;
                split[i * n + k] = bestJ;
            }
        }
        return least[n - 1] < Double.POSITIVE_INFINITY ? PolygonSplits.triangles(n, split) : null;
    }
}
