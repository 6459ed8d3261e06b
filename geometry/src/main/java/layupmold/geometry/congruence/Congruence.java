package layupmold.geometry.congruence;

import java.util.Optional;
import org.joml.Vector3d;

/**
 * Recognises a shape in another mesh of it that was moved, turned or mirrored, its vertices and triangles in any order.
 *
 * <p><b>What is promised.</b> A match is a one-to-one pairing of the vertices that takes every triangle to a triangle,
 * and an isometry that brings every vertex within the tolerance of its partner. So the two surfaces lie within the
 * tolerance of each other everywhere (their Hausdorff distance is no greater): points of a triangle are means of its
 * corners. Two meshes of one shape with different triangles are not matched, nor are meshes whose vertices lie closer
 * together than twice the tolerance; that costs a second mold, never a wrong one.
 *
 * <p>The middle of all vertices and two far vertices fix an isometry up to a reflection. The two are chosen to be rare
 * by their distance from the middle, so that few pairs of the other mesh can be their partners; each such pair is
 * tried. O(n log n) for shapes without much symmetry; on symmetric ones the first of many equal matches is found soon.
 * Searches are bounded, and a bound that is met means no match. Deterministic.
 */
public final class Congruence {

    /** Half of the promise about the tool surface's place, and far above the rounding of 32-bit coordinates. */
    public static final double DEFAULT_TOLERANCE_MM = 0.01;

    /** Vertex pairs looked at, and those of them tried, before a search ends. */
    private static final long MOST_LOOKED_AT = 50_000_000;
    private static final int MOST_TRIED = 20_000;
    private static final double LEAST_LEVER = 0.5;

    private final WeldedShape a;
    private final WeldedShape b;
    private final double tolerance;
    private final Correspondence correspondence;

    /**
     * @param map from the first mesh to the second
     * @param deviationMm greatest distance of a mapped vertex from its partner
     */
    public record Match(Isometry map, double deviationMm) {
    }

    private Congruence(WeldedShape a, WeldedShape b, double tolerance) {
        this.a = a;
        this.b = b;
        this.tolerance = tolerance;
        this.correspondence = new Correspondence(a, b, tolerance);
    }

    /**
     * A map from {@code a} to {@code b}; one without reflection where there is one.
     *
     * @param toleranceMm greatest distance between partners, above 0
     */
    public static Optional<Match> find(WeldedShape a, WeldedShape b, double toleranceMm) {
        if (!mayMatch(a, b, toleranceMm)) {
            return Optional.empty();
        }
        Congruence search = new Congruence(a, b, toleranceMm);
        return search.find(false).or(() -> search.find(true));
    }

    /** Whether counts and the vertices' distances from their middle allow a match. O(n). */
    private static boolean mayMatch(WeldedShape a, WeldedShape b, double tolerance) {
        if (a.vertexCount() != b.vertexCount() || a.triangleCount() != b.triangleCount()) {
            return false;
        }
        for (int i = 0; i < a.byRadius.length; i++) {
            // The middles lie no farther apart than the tolerance, the vertices neither.
            if (Math.abs(a.radius[a.byRadius[i]] - b.radius[b.byRadius[i]]) > 2 * tolerance) {
                return false;
            }
        }
        return true;
    }

    private Optional<Match> find(boolean mirrored) {
        double farthest = a.radius[a.byRadius[a.byRadius.length - 1]];
        int first = rarest(v -> a.radius[v], LEAST_LEVER * farthest);
        Vector3d axis = a.mesh.vertex(first).sub(a.middle).normalize();
        double widest = 0;
        for (int v = 0; v < a.vertexCount(); v++) {
            widest = Math.max(widest, fromAxis(v, axis));
        }
        if (widest < 8 * tolerance) {
            return Optional.empty();
        }
        int second = rarest(v -> fromAxis(v, axis), LEAST_LEVER * widest);
        Frame from = Frame.of(a.middle, a.mesh.vertex(first), a.mesh.vertex(second), false);
        double apart = a.mesh.vertex(first).distance(a.mesh.vertex(second));
        long lookedAt = 0;
        int tried = 0;
        for (int i = b.firstFrom(a.radius[first] - 2 * tolerance); i < b.byRadius.length; i++) {
            int partner = b.byRadius[i];
            if (b.radius[partner] > a.radius[first] + 2 * tolerance) {
                break;
            }
            for (int k = b.firstFrom(a.radius[second] - 2 * tolerance); k < b.byRadius.length; k++) {
                int other = b.byRadius[k];
                if (b.radius[other] > a.radius[second] + 2 * tolerance) {
                    break;
                }
                double distance = b.mesh.vertex(partner).distance(b.mesh.vertex(other));
                if (++lookedAt > MOST_LOOKED_AT) {
                    return Optional.empty();
                }
                if (Math.abs(distance - apart) > 2 * tolerance) {
                    continue;
                }
                if (++tried > MOST_TRIED) {
                    return Optional.empty();
                }
                Frame to = Frame.of(b.middle, b.mesh.vertex(partner), b.mesh.vertex(other), mirrored);
                Optional<Match> match = correspondence.verify(from.to(to));
                if (match.isPresent()) {
                    return match;
                }
            }
        }
        return Optional.empty();
    }

    private double fromAxis(int v, Vector3d axis) {
        return a.mesh.vertex(v).sub(a.middle).cross(axis).length();
    }

    private interface Lever {
        double of(int vertex);
    }

    /** The vertex with a lever of at least {@code least} whose radius the fewest others share; the farther of equals. */
    private int rarest(Lever lever, double least) {
        int best = -1;
        int fewest = Integer.MAX_VALUE;
        for (int i = a.byRadius.length - 1; i >= 0 && fewest > 1; i--) {
            int v = a.byRadius[i];
            if (lever.of(v) < least) {
                continue;
            }
            int alike = a.alike(v, 4 * tolerance);
            if (alike < fewest) {
                best = v;
                fewest = alike;
            }
        }
        return best;
    }
}
