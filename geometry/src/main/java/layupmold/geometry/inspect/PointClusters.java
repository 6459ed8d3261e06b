package layupmold.geometry.inspect;

import java.util.Arrays;

/**
 * Groups points whose grid cells touch, corners included: points closer than one cell always share a group, points
 * farther apart than {@code 2√3} cells never do unless others link them. O(n log n); groups are numbered by their
 * first point.
 */
final class PointClusters {

    private static final int BITS = 21;
    private static final long CENTRE = 1L << BITS - 1;

    /** Group of each point. */
    final int[] group;
    final int count;

    private PointClusters(int[] group, int count) {
        this.group = group;
        this.count = count;
    }

    static PointClusters of(double[] xyz, double cellMm) {
        int n = xyz.length / 3;
        long[] keys = new long[n];
        for (int i = 0; i < n; i++) {
            keys[i] = key(cell(xyz[3 * i], cellMm), cell(xyz[3 * i + 1], cellMm), cell(xyz[3 * i + 2], cellMm));
        }
        long[] cells = Arrays.stream(keys).sorted().distinct().toArray();
        int[] parent = new int[cells.length];
        Arrays.setAll(parent, i -> i);
        for (int i = 0; i < cells.length; i++) {
            joinNeighbours(cells, parent, i);
        }
        return number(keys, cells, parent);
    }

    private static long cell(double x, double size) {
        return (long) Math.floor(x / size) + CENTRE;
    }

    private static long key(long x, long y, long z) {
        return x << 2 * BITS | y << BITS | z;
    }

    private static void joinNeighbours(long[] cells, int[] parent, int i) {
        for (int dx = -1; dx <= 1; dx++) {
            for (int dy = -1; dy <= 1; dy++) {
                for (int dz = -1; dz <= 1; dz++) {
                    int j = Arrays.binarySearch(cells, cells[i] + ((long) dx << 2 * BITS) + ((long) dy << BITS) + dz);
                    if (j > i) {
                        parent[root(parent, j)] = root(parent, i);
                    }
                }
            }
        }
    }

    private static int root(int[] parent, int i) {
        int r = i;
        while (parent[r] != r) {
            parent[r] = parent[parent[r]];
            r = parent[r];
        }
        return r;
    }

    private static PointClusters number(long[] keys, long[] cells, int[] parent) {
        int[] group = new int[keys.length];
        int[] numbers = new int[cells.length];
        int count = 0;
        for (int i = 0; i < keys.length; i++) {
            int r = root(parent, Arrays.binarySearch(cells, keys[i]));
            if (numbers[r] == 0) {
                numbers[r] = ++count;
            }
            group[i] = numbers[r] - 1;
        }
        return new PointClusters(group, count);
    }
}
