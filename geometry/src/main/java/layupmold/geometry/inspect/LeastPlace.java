package layupmold.geometry.inspect;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Supplier;
import java.util.function.ToDoubleFunction;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.finding.Place;
import layupmold.geometry.parallel.Parallel;
import org.joml.Vector3d;

/**
 * Follows the least samples of a measure downhill over the surface: a pattern search of halving steps in eight
 * directions of the tangent plane, each step put back on the surface by a nearest-point query.
 */
final class LeastPlace {

    /** @param startedAt sample from which the place was found, or -1 */
    record Found(double mm, Place at, int startedAt) {
    }

    private static final int STARTS = 24;
    private static final int LOOKED_AT = 4000;
    private static final int HALVINGS = 12;
    private static final int MAX_STEPS = 60;

    private final MeasuredSolid solid;
    private final SurfaceSamples samples;
    private final double capMm;

    LeastPlace(MeasuredSolid solid, SurfaceSamples samples, double capMm) {
        this.solid = solid;
        this.samples = samples;
        this.capMm = capMm;
    }

    /**
     * The least value downhill of the least samples that lie apart; the cap and no place if none is below it.
     *
     * @param values one a sample, at most the cap
     * @param distribution the same, sorted
     * @param measure gives the value at a point of the surface, NaN for none; asked once for each start
     */
    Found least(double[] values, Distribution distribution, Supplier<ToDoubleFunction<NearestPoint>> measure) {
        List<Integer> starts = starts(values, distribution);
        Found[] ends = new Found[starts.size()];
        Parallel.forRanges(ends.length, 1, (chunk, from, to) ->
                ends[from] = follow(starts.get(from), values[starts.get(from)], measure.get()));
        Found best = new Found(capMm, null, -1);
        for (Found found : ends) {
            if (found.mm < best.mm) {
                best = found;
            }
        }
        return best;
    }

    private List<Integer> starts(double[] values, Distribution distribution) {
        List<Integer> starts = new ArrayList<>();
        double apart = 4 * samples.spacing();
        int n = Math.min(LOOKED_AT, distribution.count());
        for (int i = 0; i < n && starts.size() < STARTS; i++) {
            int s = distribution.sample(i);
            Vector3d p = samples.at(s);
            boolean isolated = starts.stream()
                    .allMatch(other -> samples.at(other).distance(p) > apart);
            if (values[s] < capMm && isolated) {
                starts.add(s);
            }
        }
        return starts;
    }

    private Found follow(int start, double value, ToDoubleFunction<NearestPoint> measure) {
        NearestPoint nearest = new NearestPoint();
        Vector3d at = samples.at(start);
        double best = value;
        int triangle = samples.triangle[start];
        double step = samples.spacing();
        int halvings = 0;
        for (int i = 0; i < MAX_STEPS && halvings < HALVINGS; i++) {
            Vector3d[] frame = tangents(triangle);
            boolean moved = false;
            for (int d = 0; d < 8 && !moved; d++) {
                double angle = Math.PI / 4 * d;
                Vector3d to = new Vector3d(at)
                        .fma(step * Math.cos(angle), frame[0])
                        .fma(step * Math.sin(angle), frame[1]);
                solid.bvh().nearest(to.x, to.y, to.z, 2 * step, nearest);
                if (nearest.triangle < 0 || !solid.hasReliableNormal(nearest.triangle)) {
                    continue;
                }
                double here = measure.applyAsDouble(nearest);
                if (here < best - 1e-9) {
                    best = here;
                    at.set(nearest.x, nearest.y, nearest.z);
                    triangle = nearest.triangle;
                    moved = true;
                }
            }
            if (!moved) {
                step /= 2;
                halvings++;
            }
        }
        return new Found(best, Place.at(at), start);
    }

    private Vector3d[] tangents(int triangle) {
        Vector3d n = new Vector3d(solid.normals()[3 * triangle], solid.normals()[3 * triangle + 1],
                solid.normals()[3 * triangle + 2]);
        Vector3d u = n.cross(Math.abs(n.x) < 0.6 ? new Vector3d(1, 0, 0) : new Vector3d(0, 1, 0), new Vector3d())
                .normalize();
        return new Vector3d[] {u, n.cross(u, new Vector3d())};
    }
}
