package layupmold.geometry.simplify;

import com.carrotsearch.hppc.DoubleArrayList;
import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.LongArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.function.IntToDoubleFunction;
import java.util.function.Supplier;
import layupmold.geometry.mesh.CoordinateLattice;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.parallel.Parallel;

/**
 * Brings a mesh closer to the surface that it stands for: flips edges, splits edges and triangles and moves vertices, the
 * worst place first, one edit at a time. An edit is kept only if its triangles keep their side and meet nothing (exact,
 * on lattice coordinates), so a mesh free of crossings stays so. What cannot be brought near stays as it is and is told.
 *
 * <p>About O(log n) for each edit, and four measures for each triangle looked at, those on all threads.
 */
public final class TargetFit {

    private static final int GRAIN = 1 << 5;
    private static final int ROUNDS = 30;
    /** Where ever more is off, splits only chase what is in the way of each other; that is for contouring. */
    private static final double MOST_GROWTH = 2;
    private static final int FEW = 100;

    /**
     * @param mesh the surface, without unused vertices
     * @param labels one for each triangle
     * @param misses how far each triangle that was looked at is off, mm times its weight; 0 for others
     */
    public record Result(TriangleMesh mesh, int[] labels, double[] misses) {
    }

    private final HalfEdgeMesh mesh;
    private final IntArrayList labels;
    private final Supplier<Target> targets;
    private final double toleranceMm;
    private final FittedMesh fitted;
    private final MeshEdits edits;
    /** Of each triangle, times its weight, at the middles of its sides and of itself; 0 where none was asked for. */
    private final DoubleArrayList misses;

    private TargetFit(TriangleMesh surface, int[] labels, boolean[] loose, Supplier<Target> targets,
            IntToDoubleFunction weights, double toleranceMm, CoordinateLattice lattice) {
        this.mesh = new HalfEdgeMesh(new TriangleMesh(surface.xyz().clone(), surface.triangles()));
        this.labels = IntArrayList.from(labels);
        this.targets = targets;
        this.toleranceMm = toleranceMm;
        this.misses = new DoubleArrayList();
        misses.resize(4 * labels.length);
        BitSet free = new BitSet();
        for (int v = 0; v < loose.length; v++) {
            free.set(v, loose[v]);
        }
        TargetProbe probe = new TargetProbe(mesh, targets.get(), toleranceMm, lattice);
        this.fitted = new FittedMesh(mesh, this.labels, free, weights, t -> 4 * t < misses.size() ? worst(t) : 0, probe,
                new CrossingCheck(mesh, surface), toleranceMm);
        this.edits = new MeshEdits(fitted);
    }

    /**
     * @param surface two-manifold, on lattice coordinates
     * @param labels one for each triangle; edges between different ones are not flipped
     * @param looked triangles that must not miss
     * @param loose vertices that may be moved
     * @param targets gives each thread its measure; 0 where it means nothing
     * @param weights how much a miss counts in triangles of a label, up to 1
     * @param toleranceMm what a triangle may miss, times its weight
     */
    public static Result fit(TriangleMesh surface, int[] labels, boolean[] looked, boolean[] loose,
            Supplier<Target> targets, IntToDoubleFunction weights, double toleranceMm, CoordinateLattice lattice) {
        TargetFit fit = new TargetFit(surface, labels, loose, targets, weights, toleranceMm, lattice);
        int[] next = all(looked);
        int least = Integer.MAX_VALUE;
        for (int round = 0; round < ROUNDS && next.length > 0; round++) {
            fit.measure(next);
            int[] off = fit.worstFirst(next);
            if (off.length > MOST_GROWTH * least) {
                break;
            }
            least = Math.min(least, off.length + FEW);
            next = fit.improve(off);
        }
        fit.measure(next);
        return fit.result();
    }

    private static int[] all(boolean[] looked) {
        IntArrayList which = new IntArrayList();
        for (int t = 0; t < looked.length; t++) {
            if (looked[t]) {
                which.add(t);
            }
        }
        return which.toArray();
    }

    private Result result() {
        int[] left = mesh.remainingTriangles();
        return new Result(mesh.compact(left), Arrays.stream(left).map(labels::get).toArray(),
                Arrays.stream(left).mapToDouble(this::worst).toArray());
    }

    private double worst(int t) {
        double worst = 0;
        for (int k = 0; k < 4; k++) {
            worst = Math.max(worst, misses.get(4 * t + k));
        }
        return worst;
    }

    private void measure(int[] triangles) {
        misses.resize(4 * mesh.triangleCount());
        Parallel.forRanges(triangles.length, GRAIN, (chunk, from, to) -> {
            TriangleMiss measure = new TriangleMiss(targets.get());
            for (int i = from; i < to; i++) {
                int t = triangles[i];
                measure.of(mesh.xyz, mesh.from(3 * t), mesh.from(3 * t + 1), mesh.from(3 * t + 2), misses.buffer, 4 * t);
                for (int k = 0; k < 4; k++) {
                    misses.buffer[4 * t + k] *= fitted.weight(t);
                }
            }
        });
    }

    /** Those that miss by more than the tolerance, by how much. */
    private int[] worstFirst(int[] triangles) {
        LongArrayList keys = new LongArrayList();
        for (int t : triangles) {
            double worst = worst(t);
            if (worst > toleranceMm) {
                keys.add((long) (Integer.MAX_VALUE - Float.floatToIntBits((float) worst)) << 32 | t);
            }
        }
        long[] sorted = keys.toArray();
        Arrays.sort(sorted);
        return Arrays.stream(sorted).mapToInt(key -> (int) key).toArray();
    }

    /** One edit for each triangle that no other has changed meanwhile; the triangles that are changed. */
    private int[] improve(int[] triangles) {
        BitSet changed = new BitSet();
        for (int t : triangles) {
            if (changed.get(t) || mesh.isRemoved(t)) {
                continue;
            }
            double[] miss = {misses.get(4 * t), misses.get(4 * t + 1), misses.get(4 * t + 2), misses.get(4 * t + 3)};
            for (int u : edits.improve(t, miss)) {
                changed.set(u);
            }
        }
        return changed.stream().filter(t -> !mesh.isRemoved(t)).toArray();
    }
}
