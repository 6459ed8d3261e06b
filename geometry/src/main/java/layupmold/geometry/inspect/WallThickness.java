package layupmold.geometry.inspect;

import java.util.List;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.parallel.Parallel;

/**
 * Wall thickness over a finished solid, by rays and by inscribed balls at points spread evenly over its surface.
 *
 * <p>A <em>wall</em> is material between two surfaces that oppose each other: their outward normals are at least 120°
 * apart, so that they enclose an edge of at most 60°. For a surface point p with outward normal n:
 *
 * <ul>
 *   <li>ray thickness is the length of the ray from p along −n up to where it leaves the solid through an opposing
 *       surface; a ray that leaves through any other surface measures a corner, not a wall, and does not count;</li>
 *   <li>ball thickness is the diameter of the largest ball that touches p from inside and holds no opposing surface
 *       point; it is never more than the ray. Surfaces that meet p's at a corner do not shrink the ball, so that square
 *       and drafted edges, chamfers and fillets are not taken for thin walls, while a feather edge under 60° is.</li>
 * </ul>
 *
 * <p>Both are cut at a cap, beyond which a wall is just thick. The least of the samples is then followed downhill over
 * the surface (pattern search), so that the least wall is found closer than the samples lie. What is missed: a thin
 * place smaller than the sample spacing on a mesh with more triangles than half the samples, unless the wall around it
 * thins towards it. A thin place of less than {@link PrintedDetail#LEAST_AREA_MM2} counts as none.
 *
 * <p>Deterministic for any number of threads. About one ray and three nearest-point queries a sample.
 */
public final class WallThickness {

    private static final int SAMPLES = 120_000;
    private static final int GRAIN = 2048;
    private static final int MAX_REGIONS = 100;
    private static final int BINS = 40;

    private final SurfaceSamples samples;
    private final double[] thickness;
    private final ThicknessFigures figures;
    private final MeasuredSolid solid;

    private WallThickness(
            MeasuredSolid solid, SurfaceSamples samples, double[] thickness, ThicknessFigures figures) {
        this.solid = solid;
        this.samples = samples;
        this.thickness = thickness;
        this.figures = figures;
    }

    /**
     * Measures {@code solid}; the cap is four times the limit, at least 10 mm.
     *
     * @param limitMm least thickness asked for, mm
     */
    public static WallThickness measure(MeasuredSolid solid, double limitMm) {
        return measure(solid, limitMm, Math.max(10, 4 * limitMm));
    }

    /**
     * Measures {@code solid}.
     *
     * @param limitMm least thickness asked for, mm
     * @param capMm thickness beyond which walls are not told apart, mm; more makes the search slower
     */
    public static WallThickness measure(MeasuredSolid solid, double limitMm, double capMm) {
        return measure(solid, limitMm, capMm, SAMPLES);
    }

    static WallThickness measure(MeasuredSolid solid, double limitMm, double capMm, int budget) {
        SurfaceSamples samples = SurfaceSamples.of(solid.mesh(), solid.areas(), solid::hasReliableNormal, budget);
        double[] rays = new double[samples.count()];
        double[] balls = new double[samples.count()];
        Parallel.forRanges(samples.count(), GRAIN, (chunk, from, to) -> {
            ThicknessProbe probe = new ThicknessProbe(solid, capMm);
            for (int s = from; s < to; s++) {
                probe.measure(samples.xyz[3 * s], samples.xyz[3 * s + 1], samples.xyz[3 * s + 2], samples.triangle[s]);
                rays[s] = probe.rayMm;
                balls[s] = Double.isNaN(probe.ballMm) ? capMm : probe.ballMm;
            }
        });
        ThinPlaces thin = ThinPlaces.of(solid, samples, balls, limitMm, capMm);
        thin.leaveOutSlivers(rays, balls, capMm);
        ThicknessFigures figures = figures(solid, samples, rays, balls, limitMm, capMm, thin);
        return new WallThickness(solid, samples, balls, figures);
    }

    private static ThicknessFigures figures(MeasuredSolid solid, SurfaceSamples samples, double[] rays,
            double[] balls, double limitMm, double capMm, ThinPlaces thin) {
        Distribution byBall = new Distribution(balls, samples.weight);
        Distribution byRay = new Distribution(rays, samples.weight);
        LeastPlace search = new LeastPlace(solid, samples, capMm);
        LeastPlace.Found ball = search.least(balls, byBall, measured(solid, capMm, thin, probe -> probe.ballMm));
        LeastPlace.Found ray = search.least(rays, byRay, measured(solid, capMm, thin, probe -> probe.rayMm));
        List<ThinRegion> regions = thin.regions(balls, ball);
        double area = byBall.area();
        return new ThicknessFigures(limitMm,
                ball.mm(), ball.at(), ray.mm(), ray.at(),
                byBall.quantile(0.01), byBall.quantile(0.05),
                area > 0 ? byBall.areaBelow(limitMm) / area : 0,
                byBall.histogram(0, capMm, BINS), regions.subList(0, Math.min(MAX_REGIONS, regions.size())), capMm);
    }

    private static Supplier<ToDoubleFunction<NearestPoint>> measured(
            MeasuredSolid solid, double capMm, ThinPlaces thin, ToDoubleFunction<ThicknessProbe> figure) {
        return () -> {
            ThicknessProbe probe = new ThicknessProbe(solid, capMm);
            return p -> thin.isSliver(p.triangle) ? Double.NaN
                    : figure.applyAsDouble(probe.measure(p.x, p.y, p.z, p.triangle));
        };
    }

    public ThicknessFigures figures() {
        return figures;
    }

    /** Ball thickness of each triangle, mm: the least of its samples, or its nearest neighbour's; NaN for none. */
    public float[] map() {
        return TriangleMap.of(samples, thickness, Math::min, solid.topology(), t -> true);
    }

    /**
     * Volume of the solid within {@code depthMm} of its surface, mm³: the sum over the surface of min(depth,
     * thickness / 2), so that a wall thinner than twice the depth counts half to each side. Corners count to both their
     * sides, so that it is the plain product of area and depth for a thick block.
     */
    public double skinVolume(double depthMm) {
        double sum = 0;
        for (int s = 0; s < samples.count(); s++) {
            sum += samples.weight[s] * Math.min(depthMm, thickness[s] / 2);
        }
        return sum;
    }
}
