package layupmold.geometry.fillet;

import com.carrotsearch.hppc.IntArrayList;
import java.util.Arrays;
import java.util.function.IntFunction;
import layupmold.geometry.mesh.VertexTriangles;
import layupmold.geometry.parallel.Parallel;

/**
 * Finds the given vertices that are filled: those of tight triangles that are filled deep enough to count, and from
 * them on whatever is filled at all. O(1) probes a vertex that is filled or next to one.
 */
final class FilledPlaces {

    private static final int GRAIN = 64;

    private final RollingBall rolling;
    private final TightPlaces tight;
    private final FilletSheet sheet;
    private final VertexTriangles around;

    private FilledPlaces(RollingBall rolling, TightPlaces tight, FilletSheet sheet) {
        this.rolling = rolling;
        this.tight = tight;
        this.sheet = sheet;
        this.around = VertexTriangles.of(rolling.ground());
    }

    /** @param tightTriangles those that the ball does not reach all of */
    static void find(RollingBall rolling, TightPlaces tight, int[] tightTriangles, FilletSheet sheet) {
        new FilledPlaces(rolling, tight, sheet).find(tightTriangles);
    }

    private void find(int[] tightTriangles) {
        int[] corners = rolling.ground().triangles();
        boolean[] asked = new boolean[sheet.givenCount()];
        IntArrayList suspects = new IntArrayList();
        for (int t : tightTriangles) {
            for (int k = 0; k < 3; k++) {
                if (!asked[corners[3 * t + k]]) {
                    asked[corners[3 * t + k]] = true;
                    suspects.add(corners[3 * t + k]);
                }
            }
        }
        Spot[] known = new Spot[asked.length];
        probe(suspects, v -> known[v], (v, spot) -> known[v] = spot);
        boolean[] reached = new boolean[asked.length];
        IntArrayList front = new IntArrayList();
        for (int i = 0; i < suspects.size(); i++) {
            int v = suspects.get(i);
            if (known[v].isFilled()) {
                reached[v] = true;
                front.add(v);
            }
        }
        force(tightTriangles, known, reached, front);
        spread(known, reached, front);
        for (int v = 0; v < reached.length; v++) {
            if (reached[v]) {
                sheet.spots.set(v, known[v]);
            }
        }
    }

    private interface Taker {
        void take(int vertex, Spot spot);
    }

    private void probe(IntArrayList vertices, IntFunction<Spot> known, Taker taker) {
        Spot[] found = new Spot[vertices.size()];
        Parallel.forRanges(found.length, GRAIN, (chunk, from, to) -> {
            SpotProbe probe = new SpotProbe(rolling, tight.centres(), sheet.faults);
            for (int i = from; i < to; i++) {
                int v = vertices.get(i);
                found[i] = known.apply(v) != null ? known.apply(v)
                        : probe.at(sheet.ground(v, 0), sheet.ground(v, 1), sheet.ground(v, 2), sheet.sources(v));
            }
        });
        for (int i = 0; i < found.length; i++) {
            taker.take(vertices.get(i), found[i]);
        }
    }

    /** Triangles that are filled in their middle, but at none of their corners. */
    private void force(int[] tightTriangles, Spot[] known, boolean[] reached, IntArrayList front) {
        int[] corners = rolling.ground().triangles();
        int[] open = Arrays.stream(tightTriangles).filter(t -> tight.blocked()[t] >= 0 && !known[corners[3 * t]].isFilled()
                && !known[corners[3 * t + 1]].isFilled() && !known[corners[3 * t + 2]].isFilled()).toArray();
        Spot[] deepest = new Spot[open.length];
        Parallel.forRanges(open.length, GRAIN, (chunk, from, to) -> {
            SpotProbe probe = new SpotProbe(rolling, tight.centres(), sheet.faults);
            double[] p = new double[3];
            for (int i = from; i < to; i++) {
                tight.points().put(tight.blocked()[open[i]], open[i], p);
                deepest[i] = probe.at(p[0], p[1], p[2], new int[] {open[i]});
            }
        });
        for (int i = 0; i < open.length; i++) {
            if (deepest[i].isFilled() && deepest[i].depthMm >= rolling.leastFillMm()) {
                sheet.insert(deepest[i], open[i]);
                for (int k = 0; k < 3; k++) {
                    int v = corners[3 * open[i] + k];
                    if (!reached[v]) {
                        reached[v] = true;
                        front.add(v);
                    }
                }
            }
        }
    }

    /** From filled vertices to all their neighbours, as long as those are filled. */
    private void spread(Spot[] known, boolean[] reached, IntArrayList first) {
        int[] corners = rolling.ground().triangles();
        IntArrayList front = first;
        while (!front.isEmpty()) {
            IntArrayList next = new IntArrayList();
            for (int i = 0; i < front.size(); i++) {
                int v = front.get(i);
                for (int j = around.start(v); j < around.start(v + 1) && known[v].isFilled(); j++) {
                    for (int k = 0; k < 3; k++) {
                        int w = corners[3 * around.triangle(j) + k];
                        if (!reached[w]) {
                            reached[w] = true;
                            next.add(w);
                        }
                    }
                }
            }
            probe(next, v -> known[v], (v, spot) -> known[v] = spot);
            front = next;
        }
    }
}
