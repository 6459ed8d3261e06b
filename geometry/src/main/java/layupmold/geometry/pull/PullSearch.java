package layupmold.geometry.pull;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import layupmold.geometry.bvh.NearestPoint;
import layupmold.geometry.bvh.TriangleBvh;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;
import layupmold.geometry.recipe.Keep;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.recipe.Tool;
import org.joml.Vector3d;

/**
 * Takes the recipe's pull direction or finds one: axes spread over the sphere are scored by {@link AxisScore}, the best
 * are refined, a natural axis is preferred to its neighbourhood where it is as good, and {@link BowlSense} says which way
 * round.
 */
public final class PullSearch {

    private static final String STAGE = "pull";
    private static final int AXES = 100;
    private static final int COARSE_SAMPLES = 600;
    private static final int FINE_SAMPLES = 2500;
    private static final int REFINED = 2;
    private static final double APART_COS = Math.cos(Math.toRadians(25));
    private static final double FIRST_STEP = Math.toRadians(4);
    private static final double COARSE_STEP = Math.toRadians(1.5);
    private static final double LAST_STEP = Math.toRadians(0.4);
    /**
     * What a natural axis may hide more than the best, as a share of the surface; and, for an axis of
     * symmetry, of what the best hides.
     */
    private static final double AS_GOOD = 0.0008;
    private static final double NEARLY_AS_GOOD = 0.5;
    /** Flat sides that a solid may lie on. */
    private static final int FLATS = 6;
    private static final double MIRROR_COS = Math.cos(Math.toRadians(84));
    private static final double AS_FACING = 2e-5;
    private static final double FLAT = 0.01;
    /** A part that opens by more than this share of its width opens that way without doubt. */
    private static final double CLEARLY_OPEN = 0.03;

    private final TriangleMesh mesh;
    private final TriangleBvh bvh;
    private final NormalSpread normals;
    private final AxisScore coarse;
    private final AxisScore fine;
    private final List<Finding> findings = new ArrayList<>();

    private PullSearch(TriangleMesh mesh, EdgeTopology topology, TriangleBvh bvh) {
        this.mesh = mesh;
        this.bvh = bvh;
        this.normals = NormalSpread.of(mesh);
        boolean sheet = topology.boundaryCount() > 0;
        this.fine = AxisScore.of(mesh, bvh, normals, FINE_SAMPLES, sheet);
        this.coarse = fine.with(mesh, COARSE_SAMPLES);
    }

    /** The pull of {@code recipe}, or the best found for {@code mesh}; O(n log n). */
    public static PullResult find(TriangleMesh mesh, EdgeTopology topology, Recipe recipe) {
        return find(mesh, topology, recipe.pull() == null ? TriangleBvh.of(mesh) : null, recipe);
    }

    /** As above with a hierarchy of {@code mesh} that is there already; it is not used if the recipe gives the pull. */
    public static PullResult find(TriangleMesh mesh, EdgeTopology topology, TriangleBvh bvh, Recipe recipe) {
        if (recipe.pull() != null) {
            return new PullResult(new Vector3d(recipe.pull()), false, Double.NaN, null, Double.NaN,
                    given(mesh, recipe.tool() == Tool.FEMALE ? recipe.pull() : new Vector3d(recipe.pull()).negate()));
        }
        return new PullSearch(mesh, topology, bvh).search(recipe.keep());
    }

    /** @param out of a cavity around the part */
    private static List<Finding> given(TriangleMesh mesh, Vector3d out) {
        double mouth = BowlSense.mouth(SurfaceSamples.of(mesh, FINE_SAMPLES), out);
        return mouth >= -CLEARLY_OPEN ? List.of() : List.of(Finding.warning(STAGE, "pull-against-opening",
                "The part opens the other way than it is pulled: the mold lies on its hollow side, not around its outside.")
                .measured(mouth, -CLEARLY_OPEN, "1")
                .advising("Turn the pull direction round unless that is what you want."));
    }

    private PullResult search(Keep keep) {
        List<Vector3d> natural = naturalAxes();
        List<Scored> ranked = rank(natural);
        Scored best = null;
        for (Scored start : ranked.subList(0, Math.min(REFINED, ranked.size()))) {
            Scored refined = refine(start.axis);
            best = best == null || refined.score < best.score ? refined : best;
        }
        Vector3d axis = natural(natural, best.axis);
        double sense = sense(axis);
        Vector3d direction = sense == 0 && keep instanceof Keep.Seed seed ? facing(axis, seed) : turned(axis, sense);
        Vector3d second = null;
        for (Scored other : ranked) {
            if (Math.abs(other.axis.dot(axis)) < APART_COS) {
                second = turned(other.axis, sense(other.axis));
                break;
            }
        }
        if (sense == 0 && !(keep instanceof Keep.Seed)) {
            findings.add(senseUnclear());
        }
        return new PullResult(direction, true, fine.hiddenShare(axis), second,
                second == null ? Double.NaN : fine.hiddenShare(second), List.copyOf(findings));
    }

    private record Scored(Vector3d axis, double score) {
    }

    /** The coarse axes and the natural ones, best first, none within 25° of a better one. */
    private List<Scored> rank(List<Vector3d> natural) {
        List<Vector3d> axes = new ArrayList<>(natural);
        double golden = Math.PI * (3 - Math.sqrt(5));
        for (int i = 0; i < AXES; i++) {
            double z = (i + 0.5) / AXES;
            double r = Math.sqrt(1 - z * z);
            axes.add(new Vector3d(r * Math.cos(golden * i), r * Math.sin(golden * i), z));
        }
        Scored[] all = scored(coarse, axes);
        Arrays.sort(all, Comparator.comparingDouble(Scored::score));
        List<Scored> apart = new ArrayList<>();
        for (Scored candidate : all) {
            if (apart.stream().allMatch(s -> Math.abs(s.axis.dot(candidate.axis)) < APART_COS)) {
                apart.add(candidate);
            }
        }
        return apart;
    }

    private static Scored[] scored(AxisScore score, List<Vector3d> axes) {
        Scored[] scored = new Scored[axes.size()];
        Parallel.forRanges(scored.length, 1,
                (chunk, from, to) -> scored[from] = new Scored(axes.get(from), score.of(axes.get(from))));
        return scored;
    }

    private List<Vector3d> naturalAxes() {
        List<Vector3d> axes = new ArrayList<>(List.of(
                new Vector3d(0, 0, 1), new Vector3d(0, 1, 0), new Vector3d(1, 0, 0)));
        axes.addAll(PrincipalAxes.of(mesh));
        if (fine.isSolid()) {
            axes.addAll(normals.flats(FLATS));
        }
        return axes;
    }

    /** Steps to better neighbours, halving the step where there is none. */
    private Scored refine(Vector3d start) {
        Vector3d axis = descend(coarse, start, FIRST_STEP, COARSE_STEP);
        axis = descend(fine, axis, COARSE_STEP, LAST_STEP);
        return new Scored(axis, fine.of(axis));
    }

    private static Vector3d descend(AxisScore score, Vector3d start, double firstStep, double lastStep) {
        Vector3d axis = new Vector3d(start);
        double least = score.of(axis);
        for (double step = firstStep; step >= lastStep; ) {
            Vector3d u = new Vector3d(Math.abs(axis.x) < 0.6 ? 1 : 0, Math.abs(axis.x) < 0.6 ? 0 : 1, 0)
                    .cross(axis).normalize();
            Vector3d v = new Vector3d(axis).cross(u);
            Vector3d better = null;
            List<Vector3d> around = new ArrayList<>();
            for (int k = 0; k < 4; k++) {
                around.add(new Vector3d(axis).fma(k % 2 == 0 ? step : -step, k < 2 ? u : v).normalize());
            }
            for (Scored next : scored(score, around)) {
                if (next.score < least - 1e-9) {
                    least = next.score;
                    better = next.axis;
                }
            }
            if (better == null) {
                step /= 2;
            } else {
                axis = better;
            }
        }
        return axis;
    }

    /**
     * A natural axis near {@code best}: one of symmetry if there is one, which may hide a little more, since beside it one
     * side's gain is the other's loss; else the first that hides no more and faces as well; else {@code best}, laid into
     * a mirror plane if there is one.
     */
    private Vector3d natural(List<Vector3d> natural, Vector3d best) {
        Symmetry symmetry = new Symmetry(bvh, fine.samples(), fine.size());
        double lost = fine.lostShare(best);
        double nearlyAsGood = Math.max(AS_GOOD, NEARLY_AS_GOOD * fine.hiddenShare(best));
        List<Vector3d> asGood = new ArrayList<>();
        List<Vector3d> axes = new ArrayList<>(natural);
        axes.add(normals.mostFaced(best));
        for (Vector3d axis : axes) {
            if (Math.abs(axis.dot(best)) < APART_COS) {
                continue;
            }
            double more = fine.lostShare(axis) - lost;
            if (more <= nearlyAsGood && symmetry.hasHalfTurn(axis)) {
                return axis;
            }
            if (more <= AS_GOOD) {
                asGood.add(axis);
            }
        }
        double facing = asGood.stream().mapToDouble(normals::facing).reduce(normals.facing(best), Math::max);
        for (Vector3d axis : asGood) {
            if (normals.facing(axis) >= facing - AS_FACING) {
                return axis;
            }
        }
        for (Vector3d normal : natural) {
            if (Math.abs(normal.dot(best)) < MIRROR_COS && symmetry.hasMirror(normal)) {
                return new Vector3d(best).fma(-normal.dot(best), normal).normalize();
            }
        }
        return best;
    }

    /** Positive if the part leaves along the axis by its shape, negative if against it, 0 if that does not tell. */
    private double sense(Vector3d axis) {
        double gain = fine.isSolid() ? fine.gain(axis) : 0;
        double mouth = Math.abs(gain) > FLAT ? gain : BowlSense.mouth(fine.samples(), axis);
        return Math.abs(mouth) > FLAT ? mouth : 0;
    }

    private Vector3d turned(Vector3d axis, double sense) {
        boolean along = sense != 0 ? sense > 0 : seenAgainst(axis) >= 0;
        return along ? new Vector3d(axis) : new Vector3d(axis).negate();
    }

    /** Area facing against the axis less area facing along it, as a share: the outer wall is the larger. */
    private double seenAgainst(Vector3d axis) {
        double sum = 0;
        double total = 0;
        for (int t = 0; t < mesh.triangleCount(); t++) {
            Vector3d n = mesh.areaNormal(t);
            double along = n.dot(axis);
            double length = n.length();
            total += length;
            sum += Math.abs(along) < 0.02 * length ? 0 : along < 0 ? length : -length;
        }
        return sum / total;
    }

    /** The way along the axis that leaves the wall nearest to a point in the mold. */
    private Vector3d facing(Vector3d axis, Keep.Seed seed) {
        NearestPoint nearest = new NearestPoint();
        bvh.nearest(seed.x(), seed.y(), seed.z(), Double.MAX_VALUE, nearest);
        return mesh.areaNormal(nearest.triangle).dot(axis) > 0 ? new Vector3d(axis).negate() : new Vector3d(axis);
    }

    private Finding senseUnclear() {
        return Finding.warning(STAGE, "pull-sense-unclear", (fine.isSolid() ? "The solid is alike both ways"
                : "The part is flat or saddle-shaped") + " along its pull axis: which way round it leaves is a guess.")
                .advising("Give the pull direction in the recipe.");
    }
}
