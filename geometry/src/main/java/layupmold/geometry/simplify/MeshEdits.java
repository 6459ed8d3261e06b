package layupmold.geometry.simplify;

import java.util.function.Supplier;

/** Single edits that bring a triangle nearer to its target: tries the cheapest first. Not for several threads. */
final class MeshEdits {

    /** Triangles that miss by more, in tolerances, are worth the dearest edits. */
    private static final double FAR_OFF = 1.4;
    /** They may turn a little away from their target: where a mitre ends in a valley it has steps. */
    private static final double WALL_COSINE = -0.3;

    private final FittedMesh fitted;
    private final HalfEdgeMesh mesh;
    private final VertexMoves moves;
    private final SideFlips flips;
    private final Splits splits;
    private final SideCollapses collapses;

    MeshEdits(FittedMesh fitted) {
        this.fitted = fitted;
        this.mesh = fitted.mesh();
        this.moves = new VertexMoves(fitted);
        this.flips = new SideFlips(fitted);
        this.splits = new Splits(fitted, moves);
        this.collapses = new SideCollapses(fitted);
    }

    /**
     * @param misses of triangle {@code t} along its sides and inside
     * @return triangles that are changed; none if nothing helps
     */
    int[] improve(int t, double[] misses) {
        fitted.probe().beside(t);
        int[] done = first(
                () -> moves.settle(t),
                () -> flips.flip(t, TargetProbe.LEAST_COSINE),
                () -> split(t, misses),
                () -> moves.round(t),
                () -> collapses.collapse(t, TargetProbe.LEAST_COSINE));
        if (done.length > 0 || fitted.miss(t) < FAR_OFF * fitted.toleranceMm() || !fitted.isFine(t)) {
            return done;
        }
        return first(
                () -> collapses.collapse(t, WALL_COSINE),
                () -> flips.flip(t, WALL_COSINE),
                () -> moves.roundForBest(t),
                () -> splits.splitForLess(3 * t, WALL_COSINE),
                () -> splits.splitForLess(3 * t + 1, WALL_COSINE),
                () -> splits.splitForLess(3 * t + 2, WALL_COSINE),
                () -> moves.shift(t));
    }

    /** What the first edit that does anything has changed. */
    @SafeVarargs
    private static int[] first(Supplier<int[]>... edits) {
        for (Supplier<int[]> edit : edits) {
            int[] changed = edit.get();
            if (changed.length > 0) {
                return changed;
            }
        }
        return FittedMesh.NOTHING;
    }

    /** Splits the side that misses most, else the next, else the longest, else the triangle inside. */
    private int[] split(int t, double[] misses) {
        if (collapses.wasSplitInVain(t)) {
            return FittedMesh.NOTHING;
        }
        for (int side : worstFirst(misses)) {
            int[] done = misses[side] > fitted.toleranceMm() ? splits.splitSide(3 * t + side) : FittedMesh.NOTHING;
            if (done.length > 0) {
                return done;
            }
        }
        int[] done = splits.splitSide(longest(t));
        return done.length > 0 ? done : splits.splitInside(t);
    }

    private static int[] worstFirst(double[] misses) {
        int[] sides = {0, 1, 2};
        for (int i = 0; i < 2; i++) {
            for (int j = i + 1; j < 3; j++) {
                if (misses[sides[j]] > misses[sides[i]]) {
                    int other = sides[i];
                    sides[i] = sides[j];
                    sides[j] = other;
                }
            }
        }
        return sides;
    }

    private int longest(int t) {
        int longest = 3 * t;
        for (int h = 3 * t + 1; h < 3 * t + 3; h++) {
            if (mesh.squaredLength(mesh.from(h), mesh.to(h)) > mesh.squaredLength(mesh.from(longest), mesh.to(longest))) {
                longest = h;
            }
        }
        return longest;
    }
}
