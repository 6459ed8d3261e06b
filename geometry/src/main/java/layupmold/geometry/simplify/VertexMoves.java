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

    /** Moves a vertex to a crease beside it if the triangles around then miss by less. */
    boolean snap(int v, double[] p, IntToDoubleFunction worst) {
        double most = IntStream.of(triangles(v)).mapToDouble(worst).max().orElse(0);
        double[] before = probe.place(v);
        if (!loose.get(v) || isOnBorder(v) || !move(v, p)) {
            return false;
        }
        for (int t : triangles(v)) {
            int a = mesh.from(3 * t);
            int b = mesh.from(3 * t + 1);
            int c = mesh.from(3 * t + 2);
            double left = Math.max(Math.max(probe.missBetween(a, b), probe.missBetween(b, c)),
                    Math.max(probe.missBetween(c, a), probe.missBetween(a, b, c)));
            if (left > MeshEdits.GAIN * most) {
                System.arraycopy(before, 0, mesh.xyz, 3 * v, 3);
                return false;
            }
        }
        return true;
    }
}
