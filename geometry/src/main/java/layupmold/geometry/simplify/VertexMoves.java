package layupmold.geometry.simplify;

import java.util.BitSet;
import java.util.function.BiPredicate;
import java.util.function.IntFunction;
import java.util.stream.IntStream;

/** Moves single vertices to where their target is, if the triangles around keep their side and meet nothing. */
final class VertexMoves {

    private static final double SETTLING_REACH_MM = 1;
    /** How far towards a neighbour a vertex is moved, as shares of their distance, in the order they are tried. */
    private static final double[] SHIFTS = {0.5, 0.25, 0.125, 0.75};

    /** A rounded vertex leaves small misses all around that other edits take care of. */
    private static final double ROUNDING_SHARE = 0.85;

    /** Triangles that a vertex may take along. */
    private static final int MOST_SHIFTED = 24;

    private final FittedMesh fitted;
    private final HalfEdgeMesh mesh;
    private final TargetProbe probe;
    private final BitSet rounded = new BitSet();
    private final HalfEdgeMesh.Fan fan = new HalfEdgeMesh.Fan();

    VertexMoves(FittedMesh fitted) {
        this.fitted = fitted;
        this.mesh = fitted.mesh();
        this.probe = fitted.probe();
    }

    /** Moves a loose corner of triangle {@code t} that misses onto the target; the triangles that are changed. */
    int[] settle(int t) {
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            int v = mesh.from(h);
            double[] p = probe.place(v);
            if (fitted.loose().get(v) && probe.miss(p) > fitted.toleranceMm() && probe.project(p, reach(v)) && move(v, p)) {
                return fitted.changed(triangles(v));
            }
        }
        return FittedMesh.NOTHING;
    }

    private double reach(int v) {
        return isOnBorder(v) ? FittedMesh.BORDER_REACH_MM : SETTLING_REACH_MM;
    }

    /** The triangles around a vertex. */
    int[] triangles(int v) {
        mesh.fan(v, fan);
        return fan.triangles();
    }

    private boolean isOnBorder(int v) {
        int[] around = triangles(v);
        return IntStream.of(around).anyMatch(t -> fitted.labels().get(t) != fitted.labels().get(around[0]));
    }

    private boolean move(int v, double[] p) {
        return move(v, p, (around, corners) -> true);
    }

    /** @param keeps asked about the triangles around and their corners, with the vertex moved, before crossings, which cost more */
    private boolean move(int v, double[] p, BiPredicate<int[], int[]> keeps) {
        int[] around = triangles(v);
        int[] corners = corners(around);
        double[] fronts = new double[corners.length];
        for (int i = 0; i < corners.length; i += 3) {
            System.arraycopy(probe.normal(corners, i), 0, fronts, i, 3);
        }
        double[] before = probe.place(v);
        System.arraycopy(p, 0, mesh.xyz, 3 * v, 3);
        boolean sound = !fan.onBoundary;
        for (int i = 0; i < corners.length && sound; i += 3) {
            sound = probe.faces(corners, i, new double[] {fronts[i], fronts[i + 1], fronts[i + 2]});
        }
        if (sound && keeps.test(around, corners) && fitted.crossings().isFree(corners, around)) {
            return true;
        }
        System.arraycopy(before, 0, mesh.xyz, 3 * v, 3);
        return false;
    }

    private int[] corners(int[] triangles) {
        int[] corners = new int[3 * triangles.length];
        for (int i = 0; i < corners.length; i++) {
            corners[i] = mesh.from(3 * triangles[i / 3] + i % 3);
        }
        return corners;
    }

    /**
     * Takes a corner of triangle {@code t} off a mitred edge if the triangles around then miss by less: beside a valley
     * there may be no room for the mitre. The triangles that are changed.
     */
    int[] round(int t) {
        return round(t, v -> fitted.budget(triangles(v)));
    }

    /** The same if only the worst triangle then misses by less; each vertex once, as that may have to be undone. */
    int[] roundForBest(int t) {
        return round(t, v -> {
            FittedMesh.Budget budget = rounded.get(v) ? FittedMesh.Budget.NONE : fitted.strictBudget(ROUNDING_SHARE, triangles(v));
            rounded.set(v);
            return budget;
        });
    }

    private int[] round(int t, IntFunction<FittedMesh.Budget> budget) {
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            int v = mesh.from(h);
            double[] p = fitted.loose().get(v) ? probe.onRound(v, reach(v)) : null;
            if (p != null && move(v, p, budget.apply(v))) {
                return fitted.changed(triangles(v));
            }
        }
        return FittedMesh.NOTHING;
    }

    /** Moves a corner of triangle {@code t} towards a neighbour if the triangles around then miss by less. */
    int[] shift(int t) {
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            int v = mesh.from(h);
            if (!fitted.loose().get(v) || isOnBorder(v) || fan.onBoundary || fan.size > MOST_SHIFTED) {
                continue;
            }
            for (int w : IntStream.range(0, fan.size).map(i -> mesh.to(fan.halfEdges[i])).toArray()) {
                for (double share : SHIFTS) {
                    double[] p = probe.between(v, w, share);
                    if (probe.project(p, SETTLING_REACH_MM) && moveForLess(v, p)) {
                        return fitted.changed(triangles(v));
                    }
                }
            }
        }
        return FittedMesh.NOTHING;
    }

    /** Moves a vertex to a crease beside it if the triangles around then miss by less. */
    boolean snap(int v, double[] p) {
        return fitted.loose().get(v) && !isOnBorder(v) && moveForLess(v, p);
    }

    /** Moves a vertex if that leaves much less to miss in all around it, and nowhere more than was missed there. */
    private boolean moveForLess(int v, double[] p) {
        return move(v, p, fitted.budget(triangles(v)));
    }

    private boolean move(int v, double[] p, FittedMesh.Budget budget) {
        return move(v, p, (around, corners) -> fitted.miss(corners, i -> around[i], budget) < Double.POSITIVE_INFINITY);
    }
}
