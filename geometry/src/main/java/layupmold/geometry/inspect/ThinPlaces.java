package layupmold.geometry.inspect;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/** Samples of wall under the limit, grouped by the centres of their balls: those lie mid-wall, so both sides meet. */
final class ThinPlaces {

    private final SurfaceSamples samples;
    private final int[] thin;
    private final PointClusters clusters;
    /** Of each group, half the surface on both its sides. */
    private final double[] areas;
    private final boolean[] isSliver;

    private ThinPlaces(SurfaceSamples samples, int[] thin, PointClusters clusters, int triangleCount) {
        this.samples = samples;
        this.thin = thin;
        this.clusters = clusters;
        this.areas = new double[clusters.count];
        this.isSliver = new boolean[triangleCount];
        for (int i = 0; i < thin.length; i++) {
            areas[clusters.group[i]] += samples.weight[thin[i]] / 2;
        }
        for (int i = 0; i < thin.length; i++) {
            isSliver[samples.triangle[thin[i]]] |= isSmall(clusters.group[i]);
        }
    }

    /** @param balls thickness of each sample; O(n log n) */
    static ThinPlaces of(MeasuredSolid solid, SurfaceSamples samples, double[] balls, double limitMm) {
        int[] thin = IntStream.range(0, balls.length).filter(s -> balls[s] < limitMm).toArray();
        double[] centres = new double[3 * thin.length];
        for (int i = 0; i < thin.length; i++) {
            for (int k = 0; k < 3; k++) {
                centres[3 * i + k] = samples.xyz[3 * thin[i] + k]
                        - balls[thin[i]] / 2 * solid.normals()[3 * samples.triangle[thin[i]] + k];
            }
        }
        PointClusters clusters = PointClusters.of(centres, Math.max(2 * samples.spacing(), 1e-3));
        return new ThinPlaces(samples, thin, clusters, solid.mesh().triangleCount());
    }

    private boolean isSmall(int group) {
        return areas[group] < PrintedDetail.LEAST_AREA_MM2;
    }

    /** Takes samples of groups too small to print for thick. */
    void leaveOutSlivers(double[] rays, double[] balls, double capMm) {
        for (int i = 0; i < thin.length; i++) {
            if (isSmall(clusters.group[i])) {
                rays[thin[i]] = capMm;
                balls[thin[i]] = capMm;
            }
        }
    }

    /** Whether a triangle holds samples that are left out. */
    boolean isSliver(int triangle) {
        return isSliver[triangle];
    }

    /** The other groups, thinnest first; the one from which the least place was found is told with that. */
    List<ThinRegion> regions(double[] balls, LeastPlace.Found least) {
        int[] thinnest = new int[clusters.count];
        Arrays.fill(thinnest, -1);
        for (int i = 0; i < thin.length; i++) {
            int g = clusters.group[i];
            if (thinnest[g] < 0 || balls[thin[i]] < balls[thinnest[g]]) {
                thinnest[g] = thin[i];
            }
        }
        List<ThinRegion> regions = new ArrayList<>();
        for (int g = 0; g < clusters.count; g++) {
            if (!isSmall(g)) {
                boolean holdsLeast = thinnest[g] == least.startedAt();
                regions.add(new ThinRegion(holdsLeast ? least.at() : samples.place(thinnest[g]), areas[g],
                        holdsLeast ? least.mm() : balls[thinnest[g]]));
            }
        }
        regions.sort(Comparator.comparingDouble(ThinRegion::leastMm));
        return regions;
    }
}
