package layupmold.geometry.inspect;

import com.carrotsearch.hppc.IntArrayList;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.stream.IntStream;

/** Samples of wall under the limit, grouped by the centres of their balls: those lie mid-wall, so both sides meet. */
final class ThinPlaces {

    /**
     * Samples that stand for more than their own triangle tell little about how much is thin around them; so few of them
     * in a group are looked at closely.
     */
    private static final int FEW = 16;

    private final SurfaceSamples samples;
    private final int[] thin;
    private final PointClusters clusters;
    /** Of each group, half the surface on both its sides. */
    private final double[] areas;
    private final boolean[] isSliver;

    private ThinPlaces(
            MeasuredSolid solid, SurfaceSamples samples, int[] thin, PointClusters clusters, ThinPatch patch) {
        this.samples = samples;
        this.thin = thin;
        this.clusters = clusters;
        this.areas = new double[clusters.count];
        this.isSliver = new boolean[solid.mesh().triangleCount()];
        IntArrayList[] members = new IntArrayList[clusters.count];
        Arrays.setAll(members, g -> new IntArrayList());
        for (int i = 0; i < thin.length; i++) {
            members[clusters.group[i]].add(thin[i]);
        }
        for (int g = 0; g < areas.length; g++) {
            areas[g] = areaMm2(solid, members[g].toArray(), patch) / 2;
        }
        for (int i = 0; i < thin.length; i++) {
            isSliver[samples.triangle[thin[i]]] |= isSmall(clusters.group[i]);
        }
    }

    /**
     * O(n log n).
     *
     * @param balls thickness of each sample
     * @param capMm beyond which walls are not told apart
     */
    static ThinPlaces of(MeasuredSolid solid, SurfaceSamples samples, double[] balls, double limitMm, double capMm) {
        int[] thin = IntStream.range(0, balls.length).filter(s -> balls[s] < limitMm).toArray();
        double[] centres = new double[3 * thin.length];
        for (int i = 0; i < thin.length; i++) {
            for (int k = 0; k < 3; k++) {
                centres[3 * i + k] = samples.xyz[3 * thin[i] + k]
                        - balls[thin[i]] / 2 * solid.normals()[3 * samples.triangle[thin[i]] + k];
            }
        }
        PointClusters clusters = PointClusters.of(centres, Math.max(2 * samples.spacing(), 1e-3));
        return new ThinPlaces(solid, samples, thin, clusters, new ThinPatch(solid, limitMm, capMm));
    }

    private double areaMm2(MeasuredSolid solid, int[] group, ThinPatch patch) {
        double area = Arrays.stream(group).mapToDouble(s -> samples.weight[s]).sum();
        boolean isKnown = group.length > FEW
                || Arrays.stream(group).allMatch(s -> samples.weight[s] <= solid.areas()[samples.triangle[s]]);
        return isKnown ? area : patch.areaMm2(Arrays.stream(group).map(s -> samples.triangle[s]).toArray(), area);
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
