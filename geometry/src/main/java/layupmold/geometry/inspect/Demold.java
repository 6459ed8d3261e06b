package layupmold.geometry.inspect;

import java.util.Arrays;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.finding.Place;
import layupmold.geometry.recipe.InspectSpec;
import layupmold.geometry.recipe.Tool;

/**
 * Whether the cured part comes out of the finished mold along z.
 *
 * <p>Undercut is surface that carries cloth and either faces away from the pull (by more than 0.05°) or has a part of
 * the mold above it along the pull. Undercut triangles that touch form a locked region.
 *
 * <p>The depth of an undercut point p is how far the mold or the part must give way there: the least level distance
 * from p to a point of the same height under open sky, where open sky means that the topmost surface in that place
 * carries cloth and lies at or below p. Under a ledge of width w it is w; on a sphere of radius R open down to a radius
 * ρ above its equator it is R − ρ at the equator. A region's depth is the greatest of its points'. Depth is a matter
 * of geometry alone: it says nothing of how stiff the mold or the laminate is; the limit it is held against is the
 * recipe's.
 */
public final class Demold {

    private final MeasuredSolid solid;
    private final LockedRegions locked;
    private final DemoldFigures figures;

    private Demold(MeasuredSolid solid, LockedRegions locked, DemoldFigures figures) {
        this.solid = solid;
        this.locked = locked;
        this.figures = figures;
    }

    /** Measures the mold; one upward ray a sample, and none where nothing faces down. */
    public static Demold measure(MeasuredSolid solid, InspectSpec spec, Tool tool) {
        Undercut undercut = new Undercut(solid);
        LockedRegions locked = new LockedRegions(undercut);
        double deepest = locked.regions.isEmpty() ? 0 : locked.regions.get(0).depthMm();
        Verdict verdict = deepest == 0 ? Verdict.RELEASES
                : deepest <= spec.flexDepthMm() ? Verdict.RELEASES_WITH_FLEX : Verdict.LOCKED;
        List<DraftFigures> drafts = Stream.of(MoldRegion.TOOL, MoldRegion.CAP, MoldRegion.WALL)
                .map(region -> draft(solid, region, spec.leastDraftDeg())).toList();
        DemoldFigures figures = new DemoldFigures(verdict, drafts,
                undercut.area(Undercut.FACES_AWAY), undercut.area(Undercut.SHADOWED), locked.regions,
                spec.flexDepthMm(),
                verdict == Verdict.RELEASES ? null : OtherPull.search(solid),
                verdict == Verdict.LOCKED ? SplitAdvice.find(undercut, tool) : null);
        return new Demold(solid, locked, figures);
    }

    private static DraftFigures draft(MeasuredSolid solid, MoldRegion region, double leastDeg) {
        int[] triangles = IntStream.range(0, solid.mesh().triangleCount())
                .filter(t -> solid.isIn(t, region) && solid.hasReliableNormal(t)).toArray();
        double[] drafts = new double[triangles.length];
        double[] areas = new double[triangles.length];
        for (int i = 0; i < triangles.length; i++) {
            drafts[i] = draftDeg(solid, triangles[i]);
            areas[i] = solid.areas()[triangles[i]];
        }
        Distribution distribution = new Distribution(drafts, areas);
        Histogram histogram = distribution.histogram(-90, 90, 72);
        if (distribution.isEmpty()) {
            return new DraftFigures(region, 0, 90, null, 0, histogram);
        }
        int least = distribution.sample(0);
        return new DraftFigures(region, distribution.area(), drafts[least], Place.at(solid.mesh().centroid(triangles[least])),
                distribution.areaBelow(leastDeg), histogram);
    }

    private static double draftDeg(MeasuredSolid solid, int triangle) {
        return Math.toDegrees(Math.asin(Math.max(-1, Math.min(1, solid.normals()[3 * triangle + 2]))));
    }

    public DemoldFigures figures() {
        return figures;
    }

    /** Draft of each triangle that carries cloth or bounds it, degrees; NaN elsewhere. */
    public float[] draftMap() {
        float[] map = new float[solid.mesh().triangleCount()];
        Arrays.fill(map, Float.NaN);
        for (int t = 0; t < map.length; t++) {
            if (solid.carriesCloth(t) || solid.isIn(t, MoldRegion.PLUG)) {
                map[t] = (float) draftDeg(solid, t);
            }
        }
        return map;
    }

    /** Index of each triangle's locked region in the figures, or -1. */
    public int[] lockedMap() {
        return locked.regionOf.clone();
    }
}
