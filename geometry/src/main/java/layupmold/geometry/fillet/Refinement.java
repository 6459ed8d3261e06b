package layupmold.geometry.fillet;

import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.LongHashSet;
import com.carrotsearch.hppc.LongIntHashMap;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import layupmold.geometry.parallel.Parallel;

/**
 * Splits triangles where filling begins and where their filled images leave the filling by more than is allowed. An edge
 * from a filled end to one that stays is split where filling begins, found by bisection with one query a step, so that
 * few triangles are needed along straight corners.
 */
final class Refinement {

    private static final int ROUNDS = 24;
    private static final int GRAIN = 32;
    private static final int TEARS = 3;
    private static final int MOST_VERTICES = 1 << 21;

    private final RollingBall rolling;
    private final FreeCentres centres;
    private final FilletSheet sheet;
    private final List<SheetEdge> torn = new ArrayList<>();
    private final LongHashSet passed = new LongHashSet();
    private final LongHashSet passedTriangles = new LongHashSet();

    Refinement(RollingBall rolling, FreeCentres centres, FilletSheet sheet) {
        this.rolling = rolling;
        this.centres = centres;
        this.sheet = sheet;
    }

    /** Goes on until all is as fine as asked, or there are too many vertices; leaves out where the filling tears. */
    void run() {
        double reach = rolling.reachMm();
        refine();
        for (int i = 0; i < TEARS && !torn.isEmpty(); i++, reach *= 2) {
            for (SheetEdge edge : torn) {
                sheet.faults.add(sheet.ground(edge.a, 0), sheet.ground(edge.a, 1), sheet.ground(edge.a, 2), reach);
            }
            torn.clear();
            sheet.runOut();
            reopen();
            refine();
        }
    }

    private void refine() {
        for (int round = 0; sheet.vertexCount() <= MOST_VERTICES; round++) {
            ask();
            List<SheetEdge> edges = edges();
            look(edges);
            cutLongestToo(edges);
            if (round == ROUNDS) {
                edges.stream().filter(edge -> edge.cut != null).forEach(torn::add);
                return;
            }
            LongIntHashMap onEdge = new LongIntHashMap();
            for (SheetEdge edge : edges) {
                if (edge.torn) {
                    torn.add(edge);
                    sheet.spots.get(edge.a).isTorn = true;
                    sheet.spots.get(edge.b).isTorn = true;
                }
                if (edge.cut == null || edge.torn) {
                    passed.add(FilletSheet.edge(edge.a, edge.b));
                } else {
                    onEdge.put(FilletSheet.edge(edge.a, edge.b), sheet.add(
                            edge.cut, edge.a, edge.b, edge.share, edge.firstSource, edge.secondSource));
                }
            }
            if (onEdge.isEmpty()) {
                return;
            }
            sheet.split(onEdge);
        }
    }

    /** Looks again at what is not filled completely any more. */
    void reopen() {
        passed.clear();
        passedTriangles.clear();
        for (int t = 0; t < sheet.triangleCount(); t++) {
            if (sheet.isActive(t) && isComplete(t)) {
                passedTriangles.add(key(t));
                for (int k = 0; k < 3; k++) {
                    passed.add(FilletSheet.edge(corner(3 * t + k), corner(3 * t + (k + 1) % 3)));
                }
            }
        }
    }

    private boolean isComplete(int t) {
        for (int k = 0; k < 3; k++) {
            Spot spot = sheet.spots.get(corner(3 * t + k));
            if (spot == null || spot.share < 1) {
                return false;
            }
        }
        return true;
    }

    /** Probes corners of active triangles that nobody asked about yet: filling may spread to them, and from them. */
    private void ask() {
        for (int[] unknown = unknown(); unknown.length > 0; unknown = unknown()) {
            ask(unknown);
        }
    }

    private int[] unknown() {
        IntArrayList unknown = new IntArrayList();
        for (int t = 0; t < sheet.triangleCount(); t++) {
            for (int k = 0; k < 3 && sheet.isActive(t); k++) {
                if (sheet.spots.get(corner(3 * t + k)) == null) {
                    unknown.add(corner(3 * t + k));
                }
            }
        }
        return Arrays.stream(unknown.toArray()).sorted().distinct().toArray();
    }

    private void ask(int[] vertices) {
        Spot[] found = new Spot[vertices.length];
        Parallel.forRanges(vertices.length, GRAIN, (chunk, from, to) -> {
            SpotProbe probe = new SpotProbe(rolling, centres, sheet.faults);
            for (int i = from; i < to; i++) {
                int v = vertices[i];
                found[i] = probe.at(sheet.ground(v, 0), sheet.ground(v, 1), sheet.ground(v, 2), sheet.sources(v));
            }
        });
        for (int i = 0; i < vertices.length; i++) {
            sheet.spots.set(vertices[i], found[i]);
        }
    }

    /** Edges of active triangles that have not passed yet, and the longest of those whose middles miss. */
    private List<SheetEdge> edges() {
        List<SheetEdge> edges = new ArrayList<>();
        LongIntHashMap index = new LongIntHashMap();
        IntArrayList settled = new IntArrayList();
        for (int t = 0; t < sheet.triangleCount(); t++) {
            if (!sheet.isActive(t)) {
                continue;
            }
            boolean open = false;
            for (int k = 0; k < 3; k++) {
                int a = corner(3 * t + k);
                int b = corner(3 * t + (k + 1) % 3);
                if (!passed.contains(FilletSheet.edge(a, b))) {
                    open = true;
                    add(edges, index, t, a, b, false);
                }
            }
            if (!open && !passedTriangles.contains(key(t))) {
                settled.add(t);
            }
        }
        addCoarse(settled.toArray(), edges, index);
        return edges;
    }

    private void add(List<SheetEdge> edges, LongIntHashMap index, int t, int a, int b, boolean always) {
        long key = FilletSheet.edge(a, b);
        int known = index.getOrDefault(key, -1);
        if (known < 0) {
            known = edges.size();
            index.put(key, known);
            edges.add(new SheetEdge(sheet, rolling, a, b, sheet.source.get(t)));
        } else {
            edges.get(known).secondSource = sheet.source.get(t);
        }
        edges.get(known).always |= always;
    }

    private long key(int t) {
        long a = corner(3 * t);
        long b = corner(3 * t + 1);
        long c = corner(3 * t + 2);
        return a < b && a < c ? a << 42 | b << 21 | c : b < c ? b << 42 | c << 21 | a : c << 42 | a << 21 | b;
    }

    /** Of triangles whose edges have all passed, those whose middles miss. */
    private void addCoarse(int[] settled, List<SheetEdge> edges, LongIntHashMap index) {
        boolean[] misses = new boolean[settled.length];
        Parallel.forRanges(settled.length, GRAIN, (chunk, from, to) -> {
            SpotProbe probe = new SpotProbe(rolling, centres, sheet.faults);
            for (int i = from; i < to; i++) {
                misses[i] = missesInMiddle(settled[i], probe);
            }
        });
        LongHashSet longest = new LongHashSet();
        for (int i = 0; i < settled.length; i++) {
            if (misses[i]) {
                int h = longest(settled[i]);
                longest.add(FilletSheet.edge(corner(h), corner(3 * (h / 3) + (h + 1) % 3)));
            } else {
                passedTriangles.add(key(settled[i]));
            }
        }
        addAlways(longest, edges, index);
    }

    /** Adds edges that are to be cut: whatever triangles share one tell which of the given ones meet in it. */
    private void addAlways(LongHashSet wanted, List<SheetEdge> edges, LongIntHashMap index) {
        for (int h = 0; h < 3 * sheet.triangleCount() && !wanted.isEmpty(); h++) {
            int a = corner(h);
            int b = corner(3 * (h / 3) + (h + 1) % 3);
            if (sheet.spots.get(a) != null && sheet.spots.get(b) != null
                    && wanted.contains(FilletSheet.edge(a, b))) {
                add(edges, index, h / 3, a, b, true);
            }
        }
    }

    /**
     * Cuts the longest edge of each triangle that is cut at all, so that none degenerates (Rivara, "Algorithms for
     * refining triangular grids suitable for adaptive and multigrid techniques", 1984).
     */
    private void cutLongestToo(List<SheetEdge> edges) {
        LongHashSet cut = new LongHashSet();
        for (SheetEdge edge : edges) {
            if (edge.cut != null && !edge.torn) {
                cut.add(FilletSheet.edge(edge.a, edge.b));
            }
        }
        LongHashSet wanted = new LongHashSet();
        for (boolean more = !cut.isEmpty(); more; ) {
            more = false;
            for (int t = 0; t < sheet.triangleCount(); t++) {
                if (sheet.isActive(t) && has(t, cut)) {
                    int h = longest(t);
                    long key = FilletSheet.edge(corner(h), corner(3 * t + (h + 1) % 3));
                    if (cut.add(key)) {
                        wanted.add(key);
                        more = true;
                    }
                }
            }
        }
        List<SheetEdge> more = new ArrayList<>();
        addAlways(wanted, more, new LongIntHashMap());
        look(more);
        LongIntHashMap index = new LongIntHashMap();
        for (int i = 0; i < edges.size(); i++) {
            index.put(FilletSheet.edge(edges.get(i).a, edges.get(i).b), i);
        }
        for (SheetEdge edge : more) {
            int known = index.getOrDefault(FilletSheet.edge(edge.a, edge.b), -1);
            if (known < 0) {
                edges.add(edge);
            } else {
                edges.set(known, edge);
            }
        }
    }

    private boolean has(int t, LongHashSet edges) {
        return edges.contains(FilletSheet.edge(corner(3 * t), corner(3 * t + 1)))
                || edges.contains(FilletSheet.edge(corner(3 * t + 1), corner(3 * t + 2)))
                || edges.contains(FilletSheet.edge(corner(3 * t + 2), corner(3 * t)));
    }

    private int corner(int h) {
        return sheet.triangles.get(h);
    }

    private int longest(int t) {
        int best = -1;
        double most = -1;
        for (int h = 3 * t; h < 3 * t + 3; h++) {
            double square = sheet.squaredDistance(corner(h), corner(3 * t + (h + 1) % 3));
            if (square > most) {
                most = square;
                best = h;
            }
        }
        return best;
    }

    private boolean missesInMiddle(int t, SpotProbe probe) {
        if (!isComplete(t)) {
            return false;
        }
        double[] p = new double[3];
        Spot[] spots = new Spot[3];
        for (int i = 0; i < 3; i++) {
            for (int k = 0; k < 3; k++) {
                p[k] += sheet.filled(corner(3 * t + i), k) / 3;
            }
            spots[i] = sheet.spots.get(corner(3 * t + i));
        }
        return Math.abs(probe.missMm(p[0], p[1], p[2], spots)) > rolling.chordMm();
    }

    private void look(List<SheetEdge> edges) {
        Parallel.forRanges(edges.size(), GRAIN, (chunk, from, to) -> {
            SpotProbe probe = new SpotProbe(rolling, centres, sheet.faults);
            for (int i = from; i < to; i++) {
                edges.get(i).look(probe);
            }
        });
    }
}
