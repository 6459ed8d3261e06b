package layupmold.geometry.simplify;

import com.carrotsearch.hppc.IntArrayList;
import java.util.BitSet;
import java.util.function.IntToDoubleFunction;
import java.util.stream.IntStream;

/** Moves single vertices to where their target is, if the triangles around keep their side and meet nothing. */
final class VertexMoves {

    private static final double SETTLING_REACH_MM = 1;

    private final HalfEdgeMesh mesh;
    private final IntArrayList labels;
    private final BitSet loose;
    private final TargetProbe probe;
    private final CrossingCheck crossings;
    private final double toleranceMm;
    private final HalfEdgeMesh.Fan fan = new HalfEdgeMesh.Fan();

    VertexMoves(HalfEdgeMesh mesh, IntArrayList labels, BitSet loose, TargetProbe probe, CrossingCheck crossings,
            double toleranceMm) {
        this.mesh = mesh;
        this.labels = labels;
        this.loose = loose;
        this.probe = probe;
        this.crossings = crossings;
        this.toleranceMm = toleranceMm;
    }

    /** Moves a loose corner of triangle {@code t} that misses onto the target; which one, or -1. */
    int settle(int t) {
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            int v = mesh.from(h);
            double[] p = probe.place(v);
            if (loose.get(v) && probe.miss(p) > toleranceMm
                    && probe.project(p, isOnBorder(v) ? MeshEdits.BORDER_REACH_MM : SETTLING_REACH_MM)
                    && move(v, p)) {
                return v;
            }
        }
        return -1;
    }

    /** The triangles around a vertex. */
    int[] triangles(int v) {
        mesh.fan(v, fan);
        return fan.triangles();
    }

    private boolean isOnBorder(int v) {
        int[] around = triangles(v);
        return IntStream.of(around).anyMatch(t -> labels.get(t) != labels.get(around[0]));
    }

    private boolean move(int v, double[] p) {
        int[] around = triangles(v);
        int[] corners = new int[3 * around.length];
        double[] fronts = new double[3 * around.length];
        for (int i = 0; i < around.length; i++) {
            for (int k = 0; k < 3; k++) {
                corners[3 * i + k] = mesh.from(3 * around[i] + k);
            }
            System.arraycopy(probe.normal(corners, 3 * i), 0, fronts, 3 * i, 3);
        }
        double[] before = probe.place(v);
        System.arraycopy(p, 0, mesh.xyz, 3 * v, 3);
        boolean sound = !fan.onBoundary;
        for (int i = 0; i < around.length && sound; i++) {
            sound = probe.faces(corners, 3 * i, new double[] {fronts[3 * i], fronts[3 * i + 1], fronts[3 * i + 2]});
        }
        if (sound && crossings.isFree(corners, around)) {
            return true;
        }
        System.arraycopy(before, 0, mesh.xyz, 3 * v, 3);
        return false;
    }

    /**
     * Takes a corner of triangle {@code t} off a mitred edge if the triangles around then miss by less: beside a valley
     * there may be no room for the mitre. Which one, or -1.
     */
    int round(int t, IntToDoubleFunction worst) {
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            int v = mesh.from(h);
            double[] p = !loose.get(v) ? null
                    : probe.onRound(v, isOnBorder(v) ? MeshEdits.BORDER_REACH_MM : SETTLING_REACH_MM);
            if (p != null && moveForLess(v, p, worst)) {
                return v;
            }
        }
        return -1;
    }

    /** Moves a vertex to a crease beside it if the triangles around then miss by less. */
    boolean snap(int v, double[] p, IntToDoubleFunction worst) {
        return loose.get(v) && !isOnBorder(v) && moveForLess(v, p, worst);
    }

    /** Moves a vertex if that leaves much less to miss in all around it, and nowhere more than was missed there. */
    private boolean moveForLess(int v, double[] p, IntToDoubleFunction worst) {
        int[] around = triangles(v);
        double most = IntStream.of(around).mapToDouble(worst).max().orElse(0);
        double sum = IntStream.of(around).mapToDouble(worst).sum();
        double[] before = probe.place(v);
        if (!move(v, p)) {
            return false;
        }
        double sumAfter = 0;
        for (int t : around) {
            double left = missOf(mesh.from(3 * t), mesh.from(3 * t + 1), mesh.from(3 * t + 2));
            sumAfter += left;
            if (left > most || sumAfter > MeshEdits.GAIN * sum) {
                System.arraycopy(before, 0, mesh.xyz, 3 * v, 3);
                return false;
            }
        }
        return true;
    }

    private double missOf(int a, int b, int c) {
        return Math.max(Math.max(probe.missBetween(a, b), probe.missBetween(b, c)),
                Math.max(probe.missBetween(c, a), probe.missBetween(a, b, c)));
    }
}
