package layupmold.geometry.offset.trim;

import com.carrotsearch.hppc.LongIntHashMap;
import com.carrotsearch.hppc.LongObjectHashMap;
import com.carrotsearch.hppc.cursors.LongIntCursor;
import java.util.Arrays;
import java.util.function.IntPredicate;
import layupmold.geometry.mesh.Planes;

/**
 * Groups the pieces of cut triangles into regions bounded by crossings, and decides which stay.
 *
 * <p>What reaches the boundary stays. A region of some size stays if most of it lies at the offset. A small one may lie there by chance: it stays if most of its
 * border lies in front of what it crosses there, since the offset surface is what is farthest out. Then small regions
 * change sides as long as that leaves fewer edges that do not join two pieces.
 */
final class Regions {

    /** Pieces that miss by more are none of the offset surface. */
    private static final double OFF_MM = 0.004;
    /** A large region is judged by so many of its pieces, the largest. */
    private static final int JUDGED = 24;
    /** Regions below this are judged by their borders. */
    private static final double SMALL_MM2 = 1;
    private static final int ROUNDS = 8;

    private final CutTriangles cut;
    private final double[] xyz;
    private final int[] region;
    private final double[] areas;
    /** Pieces, those of a region together, the largest first. */
    private final int[] order;
    private final boolean[] kept;

    private Regions(CutTriangles cut, double[] xyz) {
        int n = cut.sources.size();
        this.cut = cut;
        this.xyz = xyz;
        this.region = join(cut, n);
        this.areas = new double[n];
        this.kept = new boolean[n];
        Integer[] sorted = new Integer[n];
        for (int p = 0; p < n; p++) {
            areas[p] = area(p);
            sorted[p] = p;
        }
        Arrays.sort(sorted, (a, b) -> region[a] != region[b] ? Integer.compare(region[a], region[b])
                : areas[a] != areas[b] ? Double.compare(areas[b], areas[a]) : Integer.compare(a, b));
        this.order = Arrays.stream(sorted).mapToInt(p -> p).toArray();
    }

    /**
     * @param isOutline whether a node lies on the boundary; what reaches that stays
     * @return for each piece whether it stays
     */
    static boolean[] kept(CutTriangles cut, double[] xyz, IntPredicate isOutline, Miss.Source distance) {
        Regions regions = new Regions(cut, xyz);
        regions.judge(distance.get(), isOutline);
        regions.settle();
        return regions.kept;
    }

    private void judge(Miss miss, IntPredicate isOutline) {
        LongObjectHashMap<int[]> beside = seamPieces();
        for (int i = 0; i < order.length;) {
            int end = end(i);
            double near = 0;
            double weight = 0;
            for (int k = i; k < Math.min(end, i + JUDGED); k++) {
                near += Math.abs(at(order[k], miss)) < OFF_MM ? areas[order[k]] : 0;
                weight += areas[order[k]];
            }
            boolean atOffset = 2 * near > weight;
            mark(i, end, hasOutline(i, end, isOutline)
                    || atOffset && (weight > SMALL_MM2 || front(i, end, beside) > 0));
            i = end;
        }
    }

    private boolean hasOutline(int from, int end, IntPredicate isOutline) {
        for (int i = from; i < end; i++) {
            for (int k = 0; k < 3; k++) {
                if (isOutline.test(cut.pieces.get(3 * order[i] + k))) {
                    return true;
                }
            }
        }
        return false;
    }

    /** For each edge of a seam the pieces there. */
    private LongObjectHashMap<int[]> seamPieces() {
        LongObjectHashMap<int[]> pieces = new LongObjectHashMap<>();
        for (int p = 0; p < kept.length; p++) {
            for (int k = 0; k < 3; k++) {
                long edge = edge(p, k);
                if (cut.seams.contains(edge)) {
                    int[] known = pieces.get(edge);
                    int[] more = known == null ? new int[1] : Arrays.copyOf(known, known.length + 1);
                    more[more.length - 1] = p;
                    pieces.put(edge, more);
                }
            }
        }
        return pieces;
    }

    /** Length of a region's border in front of what it crosses there, less the length behind. */
    private double front(int from, int end, LongObjectHashMap<int[]> beside) {
        double length = 0;
        for (int i = from; i < end; i++) {
            int p = order[i];
            for (int k = 0; k < 3; k++) {
                int[] others = beside.get(edge(p, k));
                if (others == null) {
                    continue;
                }
                int a = cut.pieces.get(3 * p + k);
                int b = cut.pieces.get(3 * p + (k + 1) % 3);
                int apex = cut.pieces.get(3 * p + (k + 2) % 3);
                for (int other : others) {
                    if (cut.sources.get(other) != cut.sources.get(p)) {
                        int q = 3 * other;
                        double[] n = Planes.normal(xyz, cut.pieces.get(q), cut.pieces.get(q + 1), cut.pieces.get(q + 2));
                        length += Math.signum(Planes.height(xyz, n, a, apex)) * distance(a, b);
                    }
                }
            }
        }
        return length;
    }

    private double distance(int a, int b) {
        double sum = 0;
        for (int k = 0; k < 3; k++) {
            double d = xyz[3 * a + k] - xyz[3 * b + k];
            sum += d * d;
        }
        return Math.sqrt(sum);
    }

    private void settle() {
        LongIntHashMap sheets = new LongIntHashMap();
        for (int p = 0; p < kept.length; p++) {
            for (int k = 0; k < 3 && kept[p]; k++) {
                sheets.addTo(edge(p, k), 1);
            }
        }
        boolean changed = true;
        for (int round = 0; round < ROUNDS && changed; round++) {
            changed = false;
            for (int i = 0; i < order.length;) {
                int end = end(i);
                if (isSmall(i, end) && gain(i, end, sheets) > 0) {
                    mark(i, end, !kept[order[i]]);
                    for (int k = i; k < end; k++) {
                        for (int m = 0; m < 3; m++) {
                            sheets.addTo(edge(order[k], m), kept[order[i]] ? 1 : -1);
                        }
                    }
                    changed = true;
                }
                i = end;
            }
        }
    }

    /** How many more edges would join two pieces or none if a region changed sides. */
    private int gain(int from, int end, LongIntHashMap sheets) {
        LongIntHashMap own = new LongIntHashMap();
        for (int k = from; k < end; k++) {
            for (int m = 0; m < 3; m++) {
                own.addTo(edge(order[k], m), 1);
            }
        }
        int change = kept[order[from]] ? -1 : 1;
        int gain = 0;
        for (LongIntCursor edge : own) {
            if (edge.value == 1) {
                int now = sheets.getOrDefault(edge.key, 0);
                gain += (isJoined(now + change) ? 1 : 0) - (isJoined(now) ? 1 : 0);
            }
        }
        return gain;
    }

    private static boolean isJoined(int sheets) {
        return sheets == 0 || sheets == 2;
    }

    private boolean isSmall(int from, int end) {
        double sum = 0;
        for (int k = from; k < end && sum <= SMALL_MM2; k++) {
            sum += areas[order[k]];
        }
        return sum <= SMALL_MM2;
    }

    private void mark(int from, int end, boolean stays) {
        for (int k = from; k < end; k++) {
            kept[order[k]] = stays;
        }
    }

    private int end(int from) {
        int end = from;
        while (end < order.length && region[order[end]] == region[order[from]]) {
            end++;
        }
        return end;
    }

    private long edge(int p, int k) {
        return CutTriangles.edge(cut.pieces.get(3 * p + k), cut.pieces.get(3 * p + (k + 1) % 3));
    }

    private static int[] join(CutTriangles cut, int n) {
        int[] parent = new int[n];
        Arrays.setAll(parent, i -> i);
        LongIntHashMap first = new LongIntHashMap(2 * n);
        for (int p = 0; p < n; p++) {
            for (int k = 0; k < 3; k++) {
                long edge = CutTriangles.edge(cut.pieces.get(3 * p + k), cut.pieces.get(3 * p + (k + 1) % 3));
                if (cut.seams.contains(edge)) {
                    continue;
                }
                int other = first.getOrDefault(edge, -1);
                if (other < 0) {
                    first.put(edge, p);
                } else {
                    parent[root(parent, p)] = root(parent, other);
                }
            }
        }
        for (int p = 0; p < n; p++) {
            parent[p] = root(parent, p);
        }
        return parent;
    }

    private static int root(int[] parent, int i) {
        while (parent[i] != i) {
            parent[i] = parent[parent[i]];
            i = parent[i];
        }
        return i;
    }

    private double area(int p) {
        double[] n = Planes.normal(xyz, cut.pieces.get(3 * p), cut.pieces.get(3 * p + 1), cut.pieces.get(3 * p + 2));
        return Math.sqrt(n[0] * n[0] + n[1] * n[1] + n[2] * n[2]) / 2;
    }

    private double at(int p, Miss miss) {
        double[] middle = new double[3];
        for (int k = 0; k < 9; k++) {
            middle[k % 3] += xyz[3 * cut.pieces.get(3 * p + k / 3) + k % 3] / 3;
        }
        return miss.at(middle[0], middle[1], middle[2]);
    }
}
