package layupmold.geometry.mesh.prepare;

import layupmold.geometry.parallel.Parallel;

/**
 * Merges vertices at exactly the same position (0.0 and -0.0 are the same).
 *
 * <p>Vertices are dealt by hash into partitions that fit a cache and are merged there side by side; the lowest index of
 * each group stands for it, so the result does not depend on the number of threads. O(n) expected.
 */
public final class VertexWelder {

    private static final int GRAIN = 1 << 16;
    private static final int PARTITION_BITS = 7;
    private static final int PARTITIONS = 1 << PARTITION_BITS;

    /**
     * @param xyz the distinct positions, in order of their first use
     * @param vertexOf for each vertex before, its index now
     */
    public record Welded(double[] xyz, int[] vertexOf) {
    }

    private VertexWelder() {
    }

    /** Welds {@code xyz}, each coordinate multiplied by {@code scale}. */
    public static Welded weld(double[] xyz, double scale) {
        int n = xyz.length / 3;
        int[] hashes = new int[n];
        int chunks = Parallel.chunkCount(n, GRAIN);
        int[][] sizes = new int[chunks][PARTITIONS];
        Parallel.forRanges(n, GRAIN, (chunk, from, to) -> {
            for (int v = from; v < to; v++) {
                hashes[v] = hash(xyz, 3 * v);
                sizes[chunk][hashes[v] >>> 32 - PARTITION_BITS]++;
            }
        });
        int[] starts = new int[PARTITIONS + 1];
        int[][] offsets = offsets(sizes, starts);
        int[] dealt = new int[n];
        Parallel.forRanges(n, GRAIN, (chunk, from, to) -> {
            int[] at = offsets[chunk];
            for (int v = from; v < to; v++) {
                dealt[at[hashes[v] >>> 32 - PARTITION_BITS]++] = v;
            }
        });
        int[] first = new int[n];
        Parallel.forRanges(PARTITIONS, 1, (p, from, to) ->
                merge(xyz, hashes, dealt, starts[p], starts[p + 1], first));
        return number(xyz, scale, first);
    }

    private static int hash(double[] xyz, int at) {
        long h = Double.doubleToRawLongBits(xyz[at] + 0.0);
        h = h * 0x9E3779B97F4A7C15L ^ Double.doubleToRawLongBits(xyz[at + 1] + 0.0);
        h = (h ^ h >>> 29) * 0xBF58476D1CE4E5B9L ^ Double.doubleToRawLongBits(xyz[at + 2] + 0.0);
        h = (h ^ h >>> 32) * 0x94D049BB133111EBL;
        return (int) (h >>> 32);
    }

    /** Where each chunk writes its first vertex of each partition; fills {@code starts}. */
    private static int[][] offsets(int[][] sizes, int[] starts) {
        int[][] offsets = new int[sizes.length][PARTITIONS];
        int at = 0;
        for (int p = 0; p < PARTITIONS; p++) {
            starts[p] = at;
            for (int c = 0; c < sizes.length; c++) {
                offsets[c][p] = at;
                at += sizes[c][p];
            }
        }
        starts[PARTITIONS] = at;
        return offsets;
    }

    /** Sets {@code first} of every vertex in a partition to the lowest vertex at its place. */
    private static void merge(double[] xyz, int[] hashes, int[] dealt, int from, int to, int[] first) {
        int capacity = Integer.highestOneBit(Math.max(4, to - from)) << 2;
        int[] table = new int[capacity];
        for (int i = from; i < to; i++) {
            int v = dealt[i];
            int slot = hashes[v] & capacity - 1;
            while (table[slot] != 0 && !same(xyz, 3 * (table[slot] - 1), 3 * v)) {
                slot = slot + 1 & capacity - 1;
            }
            if (table[slot] == 0) {
                table[slot] = v + 1;
            }
            first[v] = table[slot] - 1;
        }
    }

    private static boolean same(double[] xyz, int a, int b) {
        return xyz[a] == xyz[b] && xyz[a + 1] == xyz[b + 1] && xyz[a + 2] == xyz[b + 2];
    }

    private static Welded number(double[] xyz, double scale, int[] first) {
        int count = 0;
        for (int v = 0; v < first.length; v++) {
            // The lowest vertex of a group comes first, so its number is there when the others ask for it.
            first[v] = first[v] == v ? count++ : first[first[v]];
        }
        double[] welded = new double[3 * count];
        for (int v = 0, next = 0; v < first.length; v++) {
            if (first[v] == next) {
                for (int k = 0; k < 3; k++) {
                    welded[3 * next + k] = xyz[3 * v + k] * scale + 0.0;
                }
                next++;
            }
        }
        return new Welded(welded, first);
    }
}
