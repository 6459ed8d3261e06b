package layupmold.geometry.inspect;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.function.IntPredicate;
import java.util.stream.IntStream;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.laminate.LaminateStack;
import layupmold.geometry.laminate.MaterialTables;
import layupmold.geometry.mesh.CornerNormals;
import layupmold.geometry.parallel.Parallel;
import layupmold.geometry.recipe.Layup;
import layupmold.geometry.recipe.Recipe;

/**
 * Whether the cloth can lie on the tool everywhere, measured on tool surface, flange wall and rounded edge; caps are cut
 * out after demolding and need not be followed.
 *
 * <p>The concave radius at a point is that of the largest ball that touches the surface there from the cloth's side
 * without cutting it elsewhere ({@link RadiusProbe}). A cloth that follows no tighter radius than ρ lies only where a
 * ball of radius ρ can touch, and spans the rest: the area with a smaller radius is just what it does not touch. How far
 * it stands off is read by letting that ball rest there. The tool with a square corner is bridged ρ wide on both flanks
 * and (√2 − 1) ρ deep.
 *
 * <p>A layer of thickness t takes t off both flanks of a groove and rounds every edge to a radius of t at least, so
 * release layer and finish coat together close lines up to twice their sum wide.
 *
 * <p>Deterministic for any number of threads; about three nearest-point queries a sample.
 */
public final class FabricFit {

    /** Shallower gaps are filled by resin and do not show: common practice, no source. */
    static final double LEAST_GAP_MM = 0.05;

    private static final int SAMPLES = 60_000;
    private static final int GRAIN = 1024;
    private static final int BINS = 40;
    private static final int MAX_BRIDGES = 100;
    private static final int RESTED = 64;
    private static final double LEAST_CAP_MM = 4;

    /** A ball on a sample stands off it by so much or less. */
    private record Stand(int sample, double mostMm) {
    }

    private final MeasuredSolid solid;
    private final SurfaceSamples samples;
    private final CornerNormals smooth;
    private final double limitMm;
    private final double capMm;
    private final double[] radius;
    private final boolean[] lost;
    private FabricFigures figures;

    private FabricFit(MeasuredSolid solid, double limitMm) {
        this.solid = solid;
        this.limitMm = limitMm;
        this.capMm = Math.max(LEAST_CAP_MM, 4 * limitMm);
        this.samples = SurfaceSamples.of(solid.mesh(), solid.areas(), t -> isFollowed(t) && solid.hasReliableNormal(t), SAMPLES);
        this.smooth = new CornerNormals(solid.mesh(), solid.normals());
        this.radius = new double[samples.count()];
        this.lost = new boolean[samples.count()];
    }

    /** Measures the mold against the recipe's cloth, release layer and finish coat. */
    public static FabricFit measure(MeasuredSolid solid, Recipe recipe) {
        FabricFit fit = new FabricFit(solid, clothRadiusMm(recipe));
        double coatsMm = recipe.releaseMm() + recipe.layup().finishCoatMm();
        fit.probe(coatsMm);
        fit.figures = fit.collect(coatsMm);
        return fit;
    }

    /** Least concave radius that the recipe's cloth follows: as asked, or by its stiffest ply. */
    public static double clothRadiusMm(Recipe recipe) {
        Double asked = recipe.inspect().clothRadiusMm();
        return asked == null ? clothRadiusMm(recipe.layup()) : asked;
    }

    /** Least radius of the stiffest ply, by weave and cured thickness. */
    static double clothRadiusMm(Layup layup) {
        List<Double> plyMm = LaminateStack.of(layup).plyMm();
        return IntStream.range(0, plyMm.size())
                .mapToDouble(i -> plyMm.get(i) * MaterialTables.weave(layup.plies().get(i).weave()).leastRadiusPerMm())
                .max().orElseThrow();
    }

    private boolean isFollowed(int triangle) {
        return solid.isIn(triangle, MoldRegion.TOOL) || solid.isIn(triangle, MoldRegion.WALL)
                || solid.isIn(triangle, MoldRegion.EDGE);
    }

    private void probe(double coatsMm) {
        Parallel.forRanges(samples.count(), GRAIN, (chunk, from, to) -> {
            RadiusProbe probe = new RadiusProbe(solid, smooth);
            for (int s = from; s < to; s++) {
                goTo(probe, s);
                radius[s] = probe.concaveMm(capMm);
                lost[s] = coatsMm > 0 && (radius[s] < coatsMm || probe.convexMm(coatsMm) < coatsMm);
            }
        });
    }

    private RadiusProbe goTo(RadiusProbe probe, int s) {
        return probe.at(samples.xyz[3 * s], samples.xyz[3 * s + 1], samples.xyz[3 * s + 2], samples.triangle[s]);
    }

    private FabricFigures collect(double coatsMm) {
        Distribution distribution = new Distribution(radius, samples.weight);
        LeastPlace.Found least = new LeastPlace(solid, samples, capMm).least(radius, distribution, () -> {
            RadiusProbe probe = new RadiusProbe(solid, smooth);
            return p -> isFollowed(p.triangle) ? probe.at(p.x, p.y, p.z, p.triangle).concaveMm(capMm) : Double.NaN;
        });
        double lostMm2 = 0;
        for (int s = 0; s < lost.length; s++) {
            lostMm2 += lost[s] ? samples.weight[s] : 0;
        }
        return new FabricFigures(limitMm, least.mm(), least.at(), distribution.areaBelow(limitMm), bridges(),
                distribution.histogram(0, capMm, BINS), 2 * coatsMm, lostMm2, area(solid::carriesCloth),
                area(t -> solid.isIn(t, MoldRegion.TOOL) || solid.isIn(t, MoldRegion.CAP)), capMm);
    }

    private double area(IntPredicate of) {
        double sum = 0;
        for (int t = 0; t < solid.areas().length; t++) {
            sum += of.test(t) ? solid.areas()[t] : 0;
        }
        return sum;
    }

    private List<Bridge> bridges() {
        int[] tight = IntStream.range(0, radius.length).filter(s -> radius[s] < limitMm).toArray();
        double[] xyz = new double[3 * tight.length];
        for (int i = 0; i < tight.length; i++) {
            System.arraycopy(samples.xyz, 3 * tight[i], xyz, 3 * i, 3);
        }
        PointClusters clusters = PointClusters.of(xyz, Math.max(2 * samples.spacing(), 1e-3));
        List<List<Integer>> members = new ArrayList<>();
        for (int g = 0; g < clusters.count; g++) {
            members.add(new ArrayList<>());
        }
        for (int i = 0; i < tight.length; i++) {
            members.get(clusters.group[i]).add(tight[i]);
        }
        Bridge[] found = new Bridge[members.size()];
        Parallel.forRanges(found.length, 1,
                (chunk, from, to) -> found[from] = bridge(members.get(from), new RadiusProbe(solid, smooth)));
        return Arrays.stream(found).filter(bridge -> bridge.gapMm() >= LEAST_GAP_MM)
                .sorted(Comparator.comparingDouble(Bridge::gapMm).reversed()).limit(MAX_BRIDGES).toList();
    }

    /** The tightest samples of a place, and others spread over it, show the deepest gap. */
    private Bridge bridge(List<Integer> place, RadiusProbe probe) {
        double area = place.stream().mapToDouble(s -> samples.weight[s]).sum();
        place.sort(Comparator.comparingDouble(s -> radius[s]));
        int stride = Math.max(1, place.size() / RESTED);
        List<Stand> stands = new ArrayList<>();
        for (int i = 0; i < place.size(); i += i < RESTED ? 1 : stride) {
            stands.add(new Stand(place.get(i), goTo(probe, place.get(i)).gapMm(limitMm)));
        }
        stands.sort(Comparator.comparingDouble(stand -> -stand.mostMm));
        Stand deepest = new Stand(place.get(0), 0);
        for (Stand stand : stands) {
            if (stand.mostMm < LEAST_GAP_MM || stand.mostMm <= deepest.mostMm) {
                break;
            }
            double gap = goTo(probe, stand.sample).leastGapMm(limitMm);
            deepest = gap > deepest.mostMm ? new Stand(stand.sample, gap) : deepest;
        }
        return new Bridge(samples.place(deepest.sample), area, radius[place.get(0)], deepest.mostMm);
    }

    public FabricFigures figures() {
        return figures;
    }

    /** Concave radius of each triangle the cloth must follow, mm, at most the cap: the least of its samples. */
    public float[] map() {
        return TriangleMap.of(samples, radius, Math::min, solid.topology(), this::isFollowed);
    }
}
